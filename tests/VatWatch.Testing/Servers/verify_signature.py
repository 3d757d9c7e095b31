"""Verifies a request signed by RFC 9421 with hmac-sha256, with nothing but the standard library.

Standard input: JSON with method, url, headers (names in lower case), body (Base64) and secret. Prints the time of the signature, or fails with a reason.
"""
import base64
import hashlib
import hmac
import json
import re
import sys

request = json.load(sys.stdin)
headers = request["headers"]
label, parameters = headers["signature-input"].split("=", 1)
components = re.match(r'\(([^)]*)\)', parameters).group(1).split()
derived = {"@method": request["method"], "@target-uri": request["url"]}
lines = []
for component in components:
    name = component.strip('"')
    lines.append(f'{component}: {derived[name] if name.startswith("@") else headers[name].strip()}')
lines.append(f'"@signature-params": {parameters}')

assert 'alg="hmac-sha256"' in parameters, "another algorithm"
for needed in ("@method", "@target-uri", "content-type", "content-digest"):
    assert f'"{needed}"' in components, f"{needed} is not signed"
body = base64.b64decode(request["body"])
digest = re.fullmatch(r"sha-256=:([^:]*):", headers["content-digest"]).group(1)
assert base64.b64decode(digest) == hashlib.sha256(body).digest(), "the body has another digest"
given = base64.b64decode(re.fullmatch(re.escape(label) + "=:([^:]*):", headers["signature"]).group(1))
wanted = hmac.new(request["secret"].encode(), "\n".join(lines).encode(), hashlib.sha256).digest()
assert hmac.compare_digest(given, wanted), "the signature is another"
print(re.search(r";created=(\d+)", parameters).group(1))
