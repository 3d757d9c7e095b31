#!/usr/bin/python3
"""A real web server for tests of webhooks, on loopback, in a process of its own.

Argument: PORT. Says "ready", then one JSON line for each request: path, headers, body (base64). Obeys lines on standard input, each answered
by "ok":
  answer CODE [HEADER VALUE]   answers with that from now on
  hang on|off                  takes a request and never answers
  flood on|off                 answers with a body that never ends
Ends when its standard input does.
"""
import base64
import json
import sys
import threading
import time
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

state = {"code": 204, "header": None, "hang": False, "flood": False}
gate = threading.Lock()


def say(line):
    with gate:
        sys.stdout.write(line + "\n")
        sys.stdout.flush()


class Hook(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def do_POST(self):
        body = self.rfile.read(int(self.headers.get("Content-Length", "0")))
        headers = {name.lower(): value for name, value in self.headers.items()}
        say(json.dumps({"path": self.path, "headers": headers, "body": base64.b64encode(body).decode()}))
        if state["hang"]:
            time.sleep(3600)
        self.send_response(state["code"])
        if state["header"]:
            self.send_header(*state["header"])
        if state["flood"]:
            self.end_headers()
            try:
                while True:
                    self.wfile.write(b"more and more ")
            except OSError:
                return
        self.send_header("Content-Length", "0")
        self.end_headers()

    def do_GET(self):
        self.do_POST()

    def log_message(self, *_):
        pass


server = ThreadingHTTPServer(("127.0.0.1", int(sys.argv[1])), Hook)
server.daemon_threads = True
threading.Thread(target=server.serve_forever, daemon=True).start()
say("ready")
for line in sys.stdin:
    words = line.strip().split(" ", 3)
    if words[0] == "answer":
        state["code"] = int(words[1])
        state["header"] = tuple(words[2:4]) if len(words) == 4 else None
    else:
        state[words[0]] = words[1] == "on"
    say("ok")
