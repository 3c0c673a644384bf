#!/usr/bin/env node
require("./potash.js");
