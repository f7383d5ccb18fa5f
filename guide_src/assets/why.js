// Opens a number, or a word of the trade, where it stands.
"use strict";
