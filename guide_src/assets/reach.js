// Keeps the next action within reach of a thumb.
"use strict";
