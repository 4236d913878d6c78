"""What every request and answer must be: from this machine's own pages, small, and under a strict policy."""

from __future__ import annotations

from collections.abc import Iterable

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LARGEST_BODY = 8_000_000
READS = ("GET", "HEAD")

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    # Not "no-referrer": browsers would then send "Origin: null" with our own forms.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=(), payment=()",
}


class Guard:
    """Refuses requests for another host or from another site, and large ones; adds the headers."""

    def __init__(self, app: ASGIApp, hosts: Iterable[str]) -> None:
        self._app = app
        self._hosts = frozenset(hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
        elif scope["type"] == "http":
            await self._http(scope, receive, _with_headers(scope, send))

    async def _http(self, scope: Scope, receive: Receive, send: Send) -> None:
        headers = Headers(scope=scope)
        refused = self._refusal(scope["method"], headers)
        if refused is not None:
            status, words = refused
            await PlainTextResponse(f"{words}\n", status)(scope, receive, send)
            return
        await self._app(scope, _counting(receive), send)

    def _refusal(self, method: str, headers: Headers) -> tuple[int, str] | None:
        """The status and the words for a request that is not let in."""
        if headers.getlist("host") != [headers.get("host", "")] or headers.get("host") not in self._hosts:
            return 421, "This bench answers only to its own address on this machine."
        if method not in READS and not self._same_site(headers):
            return 403, "Refused: the request comes from another site's page."
        length = headers.get("content-length", "0")
        if not length.isdecimal() or int(length) > LARGEST_BODY:
            return 413, f"Refused: more than {LARGEST_BODY:,} bytes were sent."
        return None

    def _same_site(self, headers: Headers) -> bool:
        origin = headers.get("origin")
        return headers.get("sec-fetch-site", "same-origin") == "same-origin" and (
            origin is None or origin == f"http://{headers.get('host')}"
        )


def hosts_at(port: int) -> tuple[str, ...]:
    """The names by which a browser on this machine reaches the bench."""
    return f"127.0.0.1:{port}", f"localhost:{port}"


class TooMuchError(Exception):
    """More was sent than the bench takes."""


def _counting(receive: Receive) -> Receive:
    """The same body, but an error once it is too large, whatever its header said."""
    seen = 0

    async def counted() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > LARGEST_BODY:
            raise TooMuchError
        return message

    return counted


def _with_headers(scope: Scope, send: Send) -> Send:
    cached = scope["path"].startswith("/static/")

    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
            headers.setdefault("Cache-Control", "no-cache" if cached else "no-store")
        await send(message)

    return sending
