"""Hosts on this machine, for tests and benchmarks."""

import contextlib
import http.server
import threading
from collections.abc import Iterator


@contextlib.contextmanager
def running(server: http.server.ThreadingHTTPServer) -> Iterator[str]:
    """The address of a server that answers until the block ends."""
    server.daemon_threads = True
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05})
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        thread.join()
        server.server_close()
