"""What the server itself has to say to a request that it does not serve. What stands on pages stands in styles/preview."""

from __future__ import annotations

REFUSED = {
    "host": "This preview answers only at the address that was printed when it started.",
    "token": "This address belongs to no preview that is running. Open the one that was printed last.",
    "method": "The preview does not understand this kind of request.",
    "origin": "The preview answers only to its own page.",
    "body": "What was sent is more than a form of this page can hold.",
    "slow": "What was sent did not arrive.",
    "many": "Too many pages of this preview are open. Close some of them.",
    "form": "What was sent is no form of this page.",
    "unknown": "The preview has nothing under this address.",
    "inside": "The preview itself failed at this; this is our mistake. The page goes on.",
}
