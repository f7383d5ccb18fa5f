// Keeps what was ticked, and shows how far the build has come.
"use strict";
