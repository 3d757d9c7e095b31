#!/usr/bin/python3
"""A real mail server for tests: Debian's python3-aiosmtpd on loopback, in a process of its own.

Arguments: PORT SECURITY [CERTIFICATE KEY] [USER PASSWORD]; SECURITY is none, starttls or tls. Use "-" for what is not wanted.
Says "ready", then one JSON line for each mail taken: to, tls, user, raw (base64). Obeys lines on standard input, each answered by "ok":
  answer-recipient CODE TEXT   answers RCPT TO with that; 0 takes it
  answer-data CODE TEXT        answers the message with that; 0 takes it
  hang on|off                  takes a message and never answers
Ends when its standard input does.
"""
import asyncio
import base64
import json
import ssl
import sys

from aiosmtpd.controller import Controller
from aiosmtpd.smtp import AuthResult, LoginPassword

state = {"recipient": None, "data": None, "hang": False}


def say(line):
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


class Desk:
    async def handle_RCPT(self, server, session, envelope, address, options):
        if state["recipient"]:
            return state["recipient"]
        envelope.rcpt_tos.append(address)
        return "250 OK"

    async def handle_DATA(self, server, session, envelope):
        if state["hang"]:
            await asyncio.sleep(3600)
        if state["data"]:
            return state["data"]
        say(json.dumps({
            "to": envelope.rcpt_tos,
            "tls": session.ssl is not None or security == "tls",
            "user": getattr(session, "auth_data", None),
            "raw": base64.b64encode(envelope.content).decode(),
        }))
        return "250 Taken for delivery"


def check(server, session, envelope, mechanism, data):
    good = isinstance(data, LoginPassword) and data.login.decode() == user and data.password.decode() == password
    return AuthResult(success=good, handled=False, auth_data=user if good else None)


port, security, certificate, key, user, password = (sys.argv[1:] + ["-"] * 6)[:6]
context = None
if certificate != "-":
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    context.load_cert_chain(certificate, key)
settings = {"hostname": "127.0.0.1", "port": int(port)}
if security == "starttls":
    settings |= {"tls_context": context, "require_starttls": True}
elif security == "tls":
    settings |= {"ssl_context": context}
if user != "-":
    settings |= {"authenticator": check, "auth_required": True, "auth_require_tls": security == "starttls"}
server = Controller(Desk(), **settings)
server.start()
say("ready")
for line in sys.stdin:
    word, _, rest = line.strip().partition(" ")
    if word == "answer-recipient":
        state["recipient"] = None if rest.startswith("0") else rest
    elif word == "answer-data":
        state["data"] = None if rest.startswith("0") else rest
    elif word == "hang":
        state["hang"] = rest == "on"
    say("ok")
server.stop()
