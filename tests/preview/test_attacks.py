"""What a page of a stranger, or another program's mistake, can send to a preview; and what must come of it.

DNS rebinding: a name of the stranger's leads to this machine, so the host of the request is hers. Sec-Fetch-Site is the browser's
word for where a request comes from (W3C, Fetch Metadata Request Headers, https://www.w3.org/TR/fetch-metadata/).
"""

from __future__ import annotations

import socket
from contextlib import closing
from pathlib import Path

import pytest
from msgspec import Struct

from stitchproof.preview import server
from stitchproof.preview.serve import Preview
from stitchproof.preview.server import MOST_BODY
from stitchproof.preview.words import REFUSED
from tests.preview.running import HAT, Answer, get, post, raw, request_of, running, session_of, soon, workspace_with

FORM = b"change=hat_sts%5BChild%5D%3D72"


class Attack(Struct, frozen=True):
    """A request. path: T stands for the token. status, said: what must come back."""

    name: str
    path: str
    status: int
    said: str
    method: str = "GET"
    body: bytes = b""
    headers: dict[str, str | None] = {}


ATTACKS = (
    Attack("another host that leads here", "/T/", 403, "host", headers={"host": "stranger.example:80"}),
    Attack("a host with the right port", "/T/", 403, "host", headers={"host": "stranger.example:P"}),
    Attack("this machine by its other name", "/T/", 403, "host", headers={"host": "localhost:P"}),
    Attack("no host", "/T/", 400, "", headers={"host": None}),
    Attack("no token", "/", 403, "token"),
    Attack("no token, a page", "/page", 403, "token"),
    Attack("an empty token", "//page", 403, "token"),
    Attack("half a token", "/HALF/", 403, "token"),
    Attack("a token and more", "/Tx/", 403, "token"),
    Attack("a made-up token", f"/{'A' * 32}/", 403, "token"),
    Attack("the token in other letters", "/LOWER/", 403, "token"),
    Attack("a link from another site", "/T/", 403, "origin", headers={"sec-fetch-site": "cross-site"}),
    Attack("another port of this machine", "/T/page", 403, "origin", headers={"sec-fetch-site": "same-site"}),
    Attack("reading from another origin", "/T/page", 403, "origin", headers={"origin": "https://stranger.example"}),
    Attack("reading from no origin", "/T/page", 403, "origin", headers={"origin": "null"}),
    *(
        Attack(
            f"{path} from another origin", f"/T/{path}", 403, "origin", "POST", FORM, {"origin": "http://127.0.0.1:1"}
        )
        for path in ("try", "write", "print")
    ),
    Attack("writing without an origin", "/T/write", 403, "origin", "POST", b"key=a", {"origin": None}),
    Attack(
        "writing as an address that was typed", "/T/write", 403, "origin", "POST", b"key=a", {"sec-fetch-site": "none"}
    ),
    Attack("writing by a link", "/T/write?key=a", 405, "method"),
    Attack("trying by a link", "/T/try?change=a", 405, "method"),
    Attack("another method", "/T/page", 403, "method", "DELETE"),
    Attack(
        "asking what is allowed", "/T/write", 403, "method", "OPTIONS", headers={"origin": "https://stranger.example"}
    ),
    Attack("a file of the pattern", "/T/pattern.yaml", 404, "unknown"),
    Attack("up and out", "/T/../../etc/passwd", 404, "unknown"),
    Attack("up and out, hidden", "/T/%2e%2e/%2e%2e/etc/passwd", 404, "unknown"),
    Attack("up and out of what is printed", "/T/printed/1/..%2f..%2fpattern.yaml", 404, "unknown"),
    Attack("what was never printed", "/T/printed/1/hat.pdf", 404, "unknown"),
    Attack("a whole address", "/T/page/https://stranger.example/", 404, "unknown"),
    Attack("a page that was never tried", "/T/page?tried=../../x", 404, "unknown"),
    Attack("a number that is not printed", "/T/number?written=__class__", 404, "unknown"),
    Attack("an explanation of no code", "/T/explain?code=../faults", 404, "unknown"),
    Attack("a form that is none", "/T/try", 415, "form", "POST", b"{}", {"content-type": "application/json"}),
    Attack("a form in another coding", "/T/try", 415, "form", "POST", b"\xff\xfe", {}),
    Attack("a form that says nothing", "/T/try", 415, "form", "POST", b"&&&===", {}),
    Attack("too many fields", "/T/try", 415, "form", "POST", b"change=a&" * 200, {}),
    Attack("a change without an end", "/T/try", 404, "unknown", "POST", b"change=" + b"a" * 5000, {}),
    Attack("an edition that is none", "/T/print", 404, "unknown", "POST", b"edition=../parts", {}),
    Attack("an edition of another command", "/T/print", 404, "unknown", "POST", b"edition=preview", {}),
)


def sent(preview: Preview, attack: Attack) -> Answer:
    token = preview.token
    others = {"/HALF/": f"/{token[:16]}/", "/LOWER/": f"/{token.swapcase()}/"}
    path = others.get(attack.path) or attack.path.replace("/T", f"/{token}", 1)
    headers = {
        name.replace("-", "_"): value.replace(":P", f":{preview.port}") if value else value
        for name, value in attack.headers.items()
    }
    return raw(preview, request_of(preview, path, attack.method, attack.body, **headers))


@pytest.mark.parametrize("attack", ATTACKS, ids=lambda attack: attack.name)
def test_attack(attack: Attack, hat: Preview) -> None:
    answer = sent(hat, attack)
    assert answer.status == attack.status
    if attack.said:
        assert answer.body == REFUSED[attack.said]
        assert "Traceback" not in answer.body
    assert get(hat, "page").status == 200


def test_a_token_is_of_one_run(hat: Preview, tmp_path: Path) -> None:
    with running(session_of(workspace_with(tmp_path, HAT))) as other:
        assert other.token != hat.token
        assert raw(hat, request_of(hat, f"/{other.token}/")).status == 403
        assert raw(other, request_of(other, f"/{other.token}/")).status == 200


@pytest.mark.parametrize("path", ["", "page", "drawings", "explain?code=SP012", "nothing", "prints"])
def test_every_answer_is_kept_to_its_page(path: str, hat: Preview) -> None:
    """No answer is stored, says where it came from, or is read by another origin; none runs a script but the frame's."""
    answer = get(hat, path)
    assert answer.headers["cache-control"] == "no-store"
    assert answer.headers["referrer-policy"] == "no-referrer"
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["cross-origin-resource-policy"] == "same-origin"
    assert not any(name.startswith("access-control") for name in answer.headers)
    policy = answer.headers["content-security-policy"]
    assert policy.startswith("default-src 'none'")
    assert ("script-src" in policy) is (path == "")
    assert "'self'" not in policy.partition("script-src")[2].partition(";")[0]
    assert "server" not in answer.headers


def test_a_refused_request_says_as_little() -> None:
    """Nothing of what is refused tells a token from another, or this program from another."""
    assert not any(word in sentence for sentence in REFUSED.values() for word in ("token", "stitchproof", "Python"))


def test_only_this_machine(hat: Preview) -> None:
    assert hat.socket.getsockname()[0] == "127.0.0.1"


def test_a_huge_body_is_not_taken_in(hat: Preview) -> None:
    """Whether its length is told before or not."""
    body = b"change=" + b"a" * (4 * MOST_BODY)
    assert raw(hat, request_of(hat, f"/{hat.token}/try", "POST", body)).status in (0, 413)
    chunked = request_of(hat, f"/{hat.token}/try", "POST", content_length=None, transfer_encoding="chunked")
    chunks = b"".join(b"%x\r\n%s\r\n" % (len(part), part) for part in (b"a" * 65536,) * 4) + b"0\r\n\r\n"
    assert raw(hat, chunked + chunks).status in (0, 413)
    assert get(hat, "page").status == 200


def test_huge_headers_are_refused(hat: Preview) -> None:
    assert raw(hat, request_of(hat, f"/{hat.token}/", x_long="a" * 200_000)).status in (0, 400, 431)
    assert get(hat, "page").status == 200


def test_a_slow_body_ends(hat: Preview, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(server, "PATIENCE", 0.2)
    request = request_of(hat, f"/{hat.token}/try", "POST", content_length="100")
    assert raw(hat, request + b"change=").status == 408


def test_who_sends_slowly_stops_nobody(hat: Preview) -> None:
    with closing(socket.create_connection(("127.0.0.1", hat.port))) as slow:
        slow.sendall(b"GET / HT")
        assert get(hat, "page").status == 200


def test_no_other_protocol(hat: Preview) -> None:
    """Asking for a websocket is asking for a page."""
    asked: dict[str, str | None] = {"connection": "Upgrade", "upgrade": "websocket", "sec_websocket_version": "13"}
    asked["sec_websocket_key"] = "dGhlIHNhbXBsZSBub25jZQ=="
    answer = raw(hat, request_of(hat, f"/{hat.token}/nothing", "GET", b"", **asked))
    assert answer.status in (400, 404)
    assert raw(hat, b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + b"\0" * 64).status in (0, 400)
    assert get(hat, "page").status == 200


def test_a_refused_write_changes_nothing(hat: Preview) -> None:
    session = hat.app.desk.session
    before = {path: path.read_bytes() for path in session.folder.iterdir()}
    for attack in ATTACKS:
        if attack.method == "POST":
            sent(hat, attack)
    assert {path: path.read_bytes() for path in session.folder.iterdir()} == before


def test_a_closed_page_is_no_longer_told(tmp_path: Path) -> None:
    from tests.preview.running import News

    with running(session_of(workspace_with(tmp_path, HAT)), still_here=0.1) as preview:
        page = News(preview)
        assert page.next() == {"shown": 1, "frame": 1, "page": 1, "prints": 0}
        assert preview.app.listening == 1
        page.close()
        assert soon(lambda: preview.app.listening == 0)


def test_a_fault_of_our_own_is_a_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with running(session_of(workspace_with(tmp_path, HAT))) as preview:
        monkeypatch.setattr(preview.app.desk.tries, "try_out", lambda changes: 1 / 0)
        answer = post(preview, "try", ("change", "hat_sts[Child]=72"))
        assert (answer.status, answer.body) == (500, REFUSED["inside"])
        assert get(preview, "page").status == 200
