// Keeps the guide on the phone, says when there is no network, and offers a newer version.
"use strict";
