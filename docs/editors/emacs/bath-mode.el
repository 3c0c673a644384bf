;;; bath-mode.el --- Formulas of the bath notation -*- lexical-binding: t -*-

;;; Commentary:
;; Colours, comments and the language server `potash editor' (by Eglot) for files that end in .bath.

;;; Code:

(defvar eglot-server-programs)

;; words of the notation (tests/editor/words.py writes them)
(defconst bath-headings
  '("kind of bath" "equilibrium" "material" "reaction" "element" "formula" "process" "variant" "wording" "phrase" "batch" "group" "shelf" "stock" "read" "rule" "unit"))
(defconst bath-statements
  '("replace after" "mistaken for" "coefficient" "interaction" "temperature" "counts as" "discarded" "dissolves" "leave out" "replenish" "topped up" "capacity" "currency" "graduate" "measures" "mixed as" "pinch of" "solution" "toxicity" "use once" "agitate" "balance" "bottles" "caution" "cool to" "counted" "density" "silence" "typical" "use for" "warm to" "advise" "beside" "bottle" "change" "dilute" "factor" "filter" "hazard" "offers" "source" "unless" "after" "drain" "holds" "inert" "keeps" "limit" "makes" "means" "meets" "mixed" "needs" "stand" "store" "trays" "trial" "usual" "where" "also" "bath" "form" "harm" "ions" "kind" "made" "note" "part" "role" "says" "sold" "stop" "swap" "tank" "time" "took" "tray" "used" "warn" "wash" "when" "add" "for" "mix" "do" "in" "of" "pk"))
(defconst bath-words
  '("replacing the library's" "heat capacity" "comes before" "best before" "comes after" "is missing" "is unclear" "as needed" "saturated" "contrast" "enthalpy" "is about" "measures" "optional" "strength" "counted" "density" "to make" "before" "dilute" "opened" "purity" "source" "within" "after" "batch" "gives" "grade" "holds" "meets" "speed" "stock" "under" "usual" "also" "from" "left" "note" "over" "says" "time" "with" "cas" "for" "lot" "per" "at" "by" "in" "is" "of" "on" "to"))
;; end of the words

(defun bath--pattern (before words)
  "A pattern of BEFORE and one of WORDS, with any blanks between their parts."
  (concat before "\\("
          (mapconcat (lambda (word) (replace-regexp-in-string " " "[ \t]+" (regexp-quote word) t t)) words "\\|")
          "\\)\\_>"))

(defvar bath-font-lock-keywords
  `((,(bath--pattern "^[ \t]*" bath-headings) 1 font-lock-keyword-face)
    (,(bath--pattern "^[ \t]*" bath-statements) 1 font-lock-builtin-face)
    ("\\_<[0-9]+:[0-9]+\\_>" 0 font-lock-warning-face)
    ("\\_<[0-9]+\\(?:[.,+/-][0-9]+\\)*\\(?:[ \t]*\\(?:%\\|°?[[:alpha:]]+\\)\\)?" 0 font-lock-constant-face)
    (,(bath--pattern "\\_<" bath-words) 1 font-lock-keyword-face t)
    ("(\\([^)\n]*\\))" 1 font-lock-type-face t))
  "What is coloured in `bath-mode'.")

(defvar bath-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "\"" table)
    (modify-syntax-entry ?\\ "." table)
    table))

;;;###autoload
(define-derived-mode bath-mode prog-mode "Bath"
  "Formulas of the bath notation."
  (setq-local comment-start "# ")
  (setq-local comment-start-skip "#+[ \t]*")
  (setq-local indent-tabs-mode nil)
  (setq-local font-lock-defaults '(bath-font-lock-keywords nil t)))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.bath\\'" . bath-mode))

(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs '(bath-mode . ("potash" "editor"))))

(provide 'bath-mode)
;;; bath-mode.el ends here
