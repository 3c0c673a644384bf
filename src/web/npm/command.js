#!/usr/bin/env node
// A run is over before code that V8 would work hard at could pay: the lexer alone takes it four seconds of the processor.
require("v8").setFlagsFromString("--liftoff-only");
require("./potash.js");
