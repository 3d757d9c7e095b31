#!/usr/bin/python3
"""Plays a capture of hardware-notes on a pseudo-terminal: replay_capture.py LINK asked|streamed|frames FILE.

asked: each "T?" and CR is answered with the next line. streamed: the file over and over, a line every 20 ms. frames: each "request" of the file
is answered with the "reply" below it. Says "ready", ends when standard input does.
"""
import os, select, sys, tty

link, mode, file = sys.argv[1:]
content = open(file, "rb").read()
near, far = os.openpty()
tty.setraw(far)
os.set_blocking(near, False)
os.symlink(os.ttyname(far), link)
print("ready", flush=True)

lines = content.splitlines(keepends=True)
answers = {}
if mode == "frames":
    frames = [line.decode().split(None, 1) for line in lines if line[:1] not in (b"#", b"\n")]
    for (kind, request), (_, reply) in zip(frames, frames[1:]):
        if kind == "request":
            answers[bytes.fromhex(request)] = bytes.fromhex(reply)

seen, at = b"", 0
while True:
    ready, _, _ = select.select([near, sys.stdin], [], [], 0.02)
    if sys.stdin in ready:
        break
    if near in ready:
        seen += os.read(near, 256)
    if mode == "streamed" or (mode == "asked" and seen.endswith(b"T?\r")):
        try:
            os.write(near, lines[at % len(lines)])
            at += 1
        except BlockingIOError:
            pass  # Nobody reads, and the terminal is full.
        seen = b""
    elif seen in answers:
        os.write(near, answers[seen])
        seen = b""
os.unlink(link)
