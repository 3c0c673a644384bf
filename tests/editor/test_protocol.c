/* The language server before messages as they come over the wire: whole, in pieces, wrong, and too late. */
#define _GNU_SOURCE

#include "support/program.h"

#include <jansson.h>
#include <stdio.h>
#include <string.h>

/* What is said to the server, and what it answers to all of it. */
struct talk {
    char *said;
    size_t length;
    FILE *stream;
    struct run run;
    json_t *answers;     /* in order */
};

static void talk_begin(struct talk *talk)
{
    *talk = (struct talk){0};
    talk->stream = open_memstream(&talk->said, &talk->length);
    assert_non_null(talk->stream);
}

static void say(struct talk *talk, const char *body)
{
    fprintf(talk->stream, "Content-Length: %zu\r\n\r\n%s", strlen(body), body);
}

#define INITIALIZE "{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"initialize\",\"params\":{\"capabilities\":{}}}"
#define OPEN(name, text)                                                                                               \
    "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didOpen\",\"params\":{\"textDocument\":{\"uri\":\"file:///c/" name    \
    "\",\"languageId\":\"bath\",\"version\":1,\"text\":\"" text "\"}}}"
#define SHUTDOWN "{\"jsonrpc\":\"2.0\",\"id\":99,\"method\":\"shutdown\"}"
#define EXIT "{\"jsonrpc\":\"2.0\",\"method\":\"exit\"}"

static void listen_to_end(struct talk *talk, int status)
{
    fclose(talk->stream);
    const char *arguments[] = {"editor", NULL};
    talk->run = run_program(program_under_test(), arguments, talk->said, talk->length);
    assert_status(&talk->run, status);
    assert_string_equal(talk->run.error, "");
    talk->answers = json_array();
    const char *at = talk->run.output;
    while (*at != '\0') {
        size_t length;
        int header;
        assert_int_equal(sscanf(at, "Content-Length: %zu%n", &length, &header), 1);
        at += header;
        assert_memory_equal(at, "\r\n\r\n", 4);
        json_t *answer = json_loadb(at + 4, length, 0, NULL);
        assert_non_null(answer);
        json_array_append_new(talk->answers, answer);
        at += 4 + length;
    }
}

static void talk_end(struct talk *talk)
{
    json_decref(talk->answers);
    run_free(&talk->run);
    free(talk->said);
}

/* The answer to the request of that number. */
static const json_t *answer_to(const struct talk *talk, json_int_t id)
{
    size_t index;
    json_t *answer;
    json_array_foreach(talk->answers, index, answer)
    {
        if (json_is_integer(json_object_get(answer, "id")) && json_integer_value(json_object_get(answer, "id")) == id) {
            return answer;
        }
    }
    fail_msg("request %lld is not answered", id);
    return NULL;
}

static json_int_t error_of(const json_t *answer)
{
    return json_integer_value(json_object_get(json_object_get(answer, "error"), "code"));
}

/* How many answers are errors of that number to nothing in particular. */
static size_t count_errors(const struct talk *talk, json_int_t code)
{
    size_t count = 0;
    size_t index;
    json_t *answer;
    json_array_foreach(talk->answers, index, answer)
    {
        count += json_is_null(json_object_get(answer, "id")) && error_of(answer) == code;
    }
    return count;
}

/* The diagnostics that were published last of a document; NULL: none were. */
static const json_t *published(const struct talk *talk, const char *uri)
{
    const json_t *last = NULL;
    size_t index;
    json_t *answer;
    json_array_foreach(talk->answers, index, answer)
    {
        const json_t *parameters = json_object_get(answer, "params");
        const char *of = json_string_value(json_object_get(parameters, "uri"));
        last = of != NULL && strcmp(of, uri) == 0 ? json_object_get(parameters, "diagnostics") : last;
    }
    return last;
}

/* ---- life: LSP 3.17, server lifecycle ---- */

static void begins_and_ends_as_the_protocol_has_it(void **state)
{
    (void)state;
    struct talk talk;
    talk_begin(&talk);
    say(&talk, "{\"jsonrpc\":\"2.0\",\"id\":5,\"method\":\"workspace/symbol\",\"params\":{\"query\":\"\"}}");
    say(&talk, INITIALIZE);
    say(&talk, "{\"jsonrpc\":\"2.0\",\"id\":6,\"method\":\"initialize\",\"params\":{\"capabilities\":{}}}");
    say(&talk, SHUTDOWN);
    say(&talk, "{\"jsonrpc\":\"2.0\",\"id\":7,\"method\":\"workspace/symbol\",\"params\":{\"query\":\"\"}}");
    say(&talk, EXIT);
    listen_to_end(&talk, 0);
    assert_int_equal(error_of(answer_to(&talk, 5)), -32002); /* ServerNotInitialized */
    assert_non_null(json_object_get(json_object_get(answer_to(&talk, 1), "result"), "capabilities"));
    assert_int_equal(error_of(answer_to(&talk, 6)), -32600); /* InvalidRequest */
    assert_true(json_is_null(json_object_get(answer_to(&talk, 99), "result")));
    assert_int_equal(error_of(answer_to(&talk, 7)), -32600);
    talk_end(&talk);
    talk_begin(&talk); /* exit without shutdown, and an end without either, are failures */
    say(&talk, INITIALIZE);
    say(&talk, EXIT);
    listen_to_end(&talk, 1);
    talk_end(&talk);
    talk_begin(&talk);
    say(&talk, INITIALIZE);
    listen_to_end(&talk, 1);
    talk_end(&talk);
    talk_begin(&talk); /* nothing was begun */
    listen_to_end(&talk, 0);
    talk_end(&talk);
}

/* ---- messages that are none ---- */

static void wrong_messages_are_answered_and_survived(void **state)
{
    (void)state;
    struct talk talk;
    talk_begin(&talk);
    say(&talk, INITIALIZE);
    say(&talk, "{ no JSON");
    say(&talk, "[]");
    say(&talk, "\"text\"");
    say(&talk, "{\"jsonrpc\":\"2.0\",\"id\":{},\"method\":\"x\"}");
    fputs("Content-Type: application/json\r\n\r\n", talk.stream);
    fputs("Content-Length: many\r\n\r\n", talk.stream);
    fputs("Content-Length: -5\r\n\r\n", talk.stream);
    fputs("Content-Length: 99999999999999999999\r\n\r\n", talk.stream); /* longer than anything that is taken, and longer than what follows */
    listen_to_end(&talk, 1);
    assert_int_equal(count_errors(&talk, -32700), 5); /* ParseError */
    assert_int_equal(count_errors(&talk, -32600), 3);
    talk_end(&talk);
    talk_begin(&talk);
    fputs("Content-Type: application/vscode-jsonrpc; charset=utf-8\r\ncontent-length:  ", talk.stream);
    fprintf(talk.stream, "%zu\r\n\r\n%s", strlen(INITIALIZE), INITIALIZE);
    say(&talk, "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didChange\",\"params\":{\"textDocument\":{\"uri\":\"file:///c/none.bath\"}}}");
    say(&talk, "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didOpen\",\"params\":{}}");
    say(&talk, "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didOpen\"}");
    say(&talk, "{\"jsonrpc\":\"2.0\",\"method\":\"none/such\"}");
    say(&talk, "{\"jsonrpc\":\"2.0\",\"id\":3,\"result\":null}"); /* an answer to nothing */
    say(&talk, OPEN("a.bath", "formula \\\"A\\\"\\n"));
    say(&talk, "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didChange\",\"params\":{\"textDocument\":{\"uri\":\"file:///c/a.bath\",\"version\":2},"
               "\"contentChanges\":[{\"range\":{\"start\":{\"line\":-1,\"character\":0},\"end\":{}},\"text\":\"x\"}]}}");
    say(&talk, "{\"jsonrpc\":\"2.0\",\"id\":\"four\",\"method\":\"textDocument/hover\",\"params\":{\"textDocument\":{\"uri\":\"file:///c/none.bath\"},"
               "\"position\":{\"line\":0,\"character\":0}}}");
    say(&talk, "{\"jsonrpc\":\"2.0\",\"id\":5,\"method\":\"textDocument/rangeFormatting\",\"params\":{\"textDocument\":{\"uri\":\"file:///c/a.bath\"}}}");
    listen_to_end(&talk, 1);
    assert_int_equal(error_of(answer_to(&talk, 5)), -32602); /* InvalidParams */
    assert_non_null(published(&talk, "file:///c/a.bath"));
    talk_end(&talk);
}

static void a_request_that_was_cancelled_is_not_begun(void **state)
{
    (void)state;
    struct talk talk;
    talk_begin(&talk);
    say(&talk, INITIALIZE);
    say(&talk, "{\"jsonrpc\":\"2.0\",\"id\":2,\"method\":\"workspace/symbol\",\"params\":{\"query\":\"\"}}");
    say(&talk, "{\"jsonrpc\":\"2.0\",\"id\":3,\"method\":\"workspace/symbol\",\"params\":{\"query\":\"\"}}");
    say(&talk, "{\"jsonrpc\":\"2.0\",\"method\":\"$/cancelRequest\",\"params\":{\"id\":2}}");
    say(&talk, "{\"jsonrpc\":\"2.0\",\"method\":\"$/cancelRequest\",\"params\":{\"id\":77}}");
    say(&talk, SHUTDOWN);
    say(&talk, EXIT);
    listen_to_end(&talk, 0);
    assert_int_equal(error_of(answer_to(&talk, 2)), -32800); /* RequestCancelled */
    assert_true(json_is_array(json_object_get(answer_to(&talk, 3), "result")));
    talk_end(&talk);
}

/* ---- texts ---- */

static void changes_follow_each_other(void **state)
{
    (void)state;
    struct talk talk;
    talk_begin(&talk);
    say(&talk, INITIALIZE);
    say(&talk, OPEN("a%20b.bath", "formula \\\"A\\\"\\n    metol 3 g\\n    water to make 1 L\\n"));
    say(&talk, "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didChange\",\"params\":{\"textDocument\":{\"uri\":\"file:///c/a%20b.bath\",\"version\":2},"
               "\"contentChanges\":["
               "{\"range\":{\"start\":{\"line\":1,\"character\":4},\"end\":{\"line\":1,\"character\":4}},\"text\":\"sodium sulfite (anhydrous) 100 g\\n    \"},"
               "{\"range\":{\"start\":{\"line\":2,\"character\":4},\"end\":{\"line\":2,\"character\":9}},\"text\":\"metool\"},"
               "{\"range\":{\"start\":{\"line\":2,\"character\":6},\"end\":{\"line\":2,\"character\":6}},\"text\":\"x\"}]}}");
    listen_to_end(&talk, 1);
    const json_t *said = published(&talk, "file:///c/a%20b.bath");
    assert_int_equal(json_array_size(said), 1);
    assert_string_equal(json_string_value(json_object_get(json_array_get(said, 0), "code")), "material-unknown");
    const char *message = json_string_value(json_object_get(json_array_get(said, 0), "message"));
    assert_non_null(strstr(message, "\"mextool\""));
    talk_end(&talk);
}

static void several_roots_are_read_and_changed(void **state)
{
    (void)state;
    const char *one = scratch_text("one.bath", "formula \"One\"\n    metol 3 g\n    water to make 1 L\n");
    const char *folder = scratch_folder();
    (void)one;
    struct talk talk;
    talk_begin(&talk);
    char *message;
    assert_true(asprintf(&message, "{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"initialize\",\"params\":{\"capabilities\":{},\"workspaceFolders\":["
                                   "{\"uri\":\"file://%s\",\"name\":\"a\"},{\"uri\":\"file:///none/such\",\"name\":\"b\"}]}}", folder) > 0);
    say(&talk, message);
    free(message);
    say(&talk, "{\"jsonrpc\":\"2.0\",\"id\":2,\"method\":\"workspace/symbol\",\"params\":{\"query\":\"one\"}}");
    assert_true(asprintf(&message, "{\"jsonrpc\":\"2.0\",\"method\":\"workspace/didChangeWorkspaceFolders\",\"params\":{\"event\":{\"added\":[],"
                                   "\"removed\":[{\"uri\":\"file://%s\",\"name\":\"a\"}]}}}", folder) > 0);
    say(&talk, message);
    free(message);
    say(&talk, "{\"jsonrpc\":\"2.0\",\"id\":3,\"method\":\"workspace/symbol\",\"params\":{\"query\":\"one\"}}");
    say(&talk, SHUTDOWN);
    say(&talk, EXIT);
    listen_to_end(&talk, 0);
    assert_int_equal(json_array_size(json_object_get(answer_to(&talk, 2), "result")), 1);
    assert_int_equal(json_array_size(json_object_get(answer_to(&talk, 3), "result")), 0);
    talk_end(&talk);
    scratch_remove();
}

static void a_library_that_is_not_there_ends_it(void **state)
{
    (void)state;
    struct run run = run_potash("editor", "--library", "samples/none", NULL);
    assert_status(&run, 2);
    assert_says(&run, "samples/none");
    assert_string_equal(run.output, "");
    run_free(&run);
    run = run_potash("editor", "file.bath", NULL);
    assert_status(&run, 2);
    assert_says(&run, "editor");
    run_free(&run);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(begins_and_ends_as_the_protocol_has_it),
        cmocka_unit_test(wrong_messages_are_answered_and_survived),
        cmocka_unit_test(a_request_that_was_cancelled_is_not_begun),
        cmocka_unit_test(changes_follow_each_other),
        cmocka_unit_test(several_roots_are_read_and_changed),
        cmocka_unit_test(a_library_that_is_not_there_ends_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
