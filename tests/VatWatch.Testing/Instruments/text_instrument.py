#!/usr/bin/env python3
"""A bench instrument that speaks lines of text on a pseudo-terminal. Python 3 standard library only.

It makes the pseudo-terminal and a symbolic link to its far end, so that a hang-up and a return look like a plug that is
pulled and put back. Readings T (deg C), PH and ORP (mV) can be changed while it runs.

Asked:    "T?" -> "T=45.20C"   "PH?" -> "PH=9.810"   "ORP?" -> "ORP=-655.0"   "ALL?" -> "45.20,9.810,-655.0"
          "C,0" -> "*OK", and until then no question is answered when it was started with --shy
          "RT,45.2" -> "PH=9.810@45.2": the pH with the temperature that it was told
          "SUM?" -> "T=45.20C*3F" (exclusive or of all before the star)   "N?" -> the number of questions so far
Streamed: the ALL line, every --period seconds.

Commands on standard input, one a line; each is answered by "ok" or "bad ..." on standard output:
  set NAME VALUE      the reading from now on
  ramp NAME RATE      change per second from now on
  text NAME WORDS     what the reading shows instead of a number; no words: the number again
  silent on|off       says nothing; questions are read and forgotten
  garbage on|off      random bytes and a line ending instead of every answer
  split on|off        each answer in two halves, 30 ms apart
  late SECONDS        each answer that much later (0: at once)
  drip SECONDS        each byte of an answer that much after the one before (0: all at once)
  bare on|off         numbers alone, without their name and unit: no answer tells which question it belongs to
  busy on|off         reads nothing, so that the asker's writes pile up
  manner NAME         how an answer is dressed: plain, echo, banner, status-before, status-after,
                      bursts (two halves, 0.9 s apart), comma, unit-behind, twice, noise-line, refuse, start (three letters and no more)
  flood BYTES         so many random bytes, some of them line endings, as fast as they are taken; answered when all are
  forget              has been switched off and on: must have the command C,0 again when it is shy
  hangup              pulls the plug: the far end sees a hang-up and the link is gone
  return              puts it back
  quit
"""
import argparse, errno, heapq, os, random, select, sys, time, tty

parser = argparse.ArgumentParser()
parser.add_argument("--link", required=True, help="where the symbolic link to the far end is made")
parser.add_argument("--mode", choices=["ask", "stream"], default="ask")
parser.add_argument("--period", type=float, default=1.0)
parser.add_argument("--ending", default="\\r\\n")
parser.add_argument("--shy", action="store_true", help="answers no question before it has had the command C,0")
parser.add_argument("--seed", type=int, default=1)
args = parser.parse_args()
ending = args.ending.encode().decode("unicode_escape").encode("ascii")
rng = random.Random(args.seed)

values = {"T": 45.2, "PH": 9.81, "ORP": -655.0}
rates = {"T": 0.0, "PH": 0.0, "ORP": 0.0}
texts = {}
since = time.monotonic()
switches = {"silent": False, "garbage": False, "split": False, "busy": False, "bare": False}
late = 0.0
drip = 0.0
dripping_until = 0.0
manner = "plain"
MANNERS = ["plain", "echo", "banner", "status-before", "status-after", "bursts", "comma", "unit-behind", "twice", "noise-line", "refuse", "start"]
asked = 0
commanded = not args.shy
master = far = None
pending = []  # heap of (time, order, bytes)
order = 0


def say(line):
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def plug_in():
    global master, far
    master, far = os.openpty()
    tty.setraw(far)
    os.set_blocking(master, False)
    temporary = args.link + ".new"
    if os.path.lexists(temporary):
        os.unlink(temporary)
    os.symlink(os.ttyname(far), temporary)
    os.replace(temporary, args.link)


def pull_out():
    global master, far
    if master is None:
        return
    os.unlink(args.link)
    os.close(master)
    os.close(far)
    master = far = None
    pending.clear()


def advance():
    global since
    now = time.monotonic()
    for name in values:
        values[name] += rates[name] * (now - since)
    since = now


def shown(name, form):
    return texts.get(name) or form % values[name]


def all_line():
    return "%s,%s,%s" % (shown("T", "%.2f"), shown("PH", "%.3f"), shown("ORP", "%.1f"))


def answer(question):
    global asked, commanded
    asked += 1
    advance()
    form = "%s" if switches["bare"] else None
    if question == "C,0":
        commanded = True
        return "*OK"
    if not commanded:
        return "*WAIT"
    if question.startswith("RT,"):
        return "PH=%s@%s" % (shown("PH", "%.3f"), question[3:])
    if question == "T?":
        return (form or "T=%sC") % shown("T", "%.2f")
    if question == "PH?":
        return (form or "PH=%s") % shown("PH", "%.3f")
    if question == "ORP?":
        return (form or "ORP=%s") % shown("ORP", "%.1f")
    if question == "ALL?":
        return all_line()
    if question == "N?":
        return str(asked)
    if question == "SUM?":
        body = "T=%sC" % shown("T", "%.2f")
        total = 0
        for letter in body.encode("ascii"):
            total ^= letter
        return "%s*%02X" % (body, total)
    return "?"


def queue(data, after):
    global order
    order += 1
    heapq.heappush(pending, (time.monotonic() + after, order, data))


def dressed(question, line):
    """The lines that the instrument sends for one answer, by its manner."""
    if manner == "echo":
        return [question, line]
    if manner == "banner":
        return ["Bench meter 3, firmware 1.07", "Copyright, all rights reserved", line]
    if manner == "status-before":
        return ["*OK", line]
    if manner == "status-after":
        return [line, "*OK"]
    if manner == "comma":
        return [line.replace(".", ",")]
    if manner == "unit-behind":
        return [line.replace("C", " deg C")]
    if manner == "twice":
        return [line, line]
    if manner == "noise-line":
        return ["".join(chr(rng.randrange(33, 127)) for _ in range(rng.randrange(1, 20))), line]
    if manner == "refuse":
        return ["*ER"]
    return [line]


def send(line):
    global dripping_until
    if switches["silent"]:
        return
    if manner == "bursts":
        half = len(line) // 2
        queue(line[:half].encode("ascii"), late)
        queue(line[half:].encode("ascii") + ending, late + 0.9)
        return
    if manner == "start":
        queue(line[:3].encode("ascii"), late)
        return
    data = line.encode("ascii") + ending
    if switches["garbage"]:
        data = bytes(rng.randrange(256) for _ in range(rng.randrange(1, 40))) + ending
    # A line carries one byte after the other: what is sent while an answer still drips comes behind it.
    waiting = max(0.0, dripping_until - time.monotonic())
    if drip > 0:
        for place in range(len(data)):
            queue(data[place:place + 1], waiting + late + place * drip)
        dripping_until = time.monotonic() + waiting + late + len(data) * drip
    elif waiting > 0:
        queue(data, waiting + late)
    elif switches["split"]:
        half = len(data) // 2
        queue(data[:half], late)
        queue(data[half:], late + 0.03)
    else:
        queue(data, late)


def flood(rest):
    while rest > 0:
        chunk = rng.randbytes(min(rest, 4096))
        while chunk:
            select.select([], [master], [], 10)
            try:
                sent = os.write(master, chunk)
            except BlockingIOError:
                continue
            chunk = chunk[sent:]
            rest -= sent


def command(words):
    global late, drip, manner, commanded
    advance()
    verb = words[0]
    if verb == "set" and len(words) == 3 and words[1] in values:
        values[words[1]] = float(words[2])
    elif verb == "ramp" and len(words) == 3 and words[1] in rates:
        rates[words[1]] = float(words[2])
    elif verb == "text" and len(words) >= 2 and words[1] in values:
        texts[words[1]] = " ".join(words[2:])
    elif verb in switches and len(words) == 2 and words[1] in ("on", "off"):
        switches[verb] = words[1] == "on"
    elif verb == "late" and len(words) == 2:
        late = float(words[1])
    elif verb == "drip" and len(words) == 2:
        drip = float(words[1])
    elif verb == "manner" and len(words) == 2 and words[1] in MANNERS:
        manner = words[1]
    elif verb == "flood" and len(words) == 2 and master is not None:
        flood(int(words[1]))
    elif verb == "forget":
        commanded = not args.shy
    elif verb == "hangup" and master is not None:
        pull_out()
    elif verb == "return" and master is None:
        plug_in()
    elif verb == "quit":
        pull_out()
        say("ok")
        sys.exit(0)
    else:
        say("bad " + " ".join(words))
        return
    say("ok")


plug_in()
say("ready")
typed = b""
heard = b""
next_line = time.monotonic() + args.period
while True:
    now = time.monotonic()
    waits = [1.0]
    if pending:
        waits.append(pending[0][0] - now)
    if args.mode == "stream":
        waits.append(next_line - now)
    watched = [0] + ([master] if master is not None and not switches["busy"] else [])
    ready, _, _ = select.select(watched, [], [], max(0.0, min(waits)))
    if 0 in ready:
        chunk = os.read(0, 4096)
        if not chunk:
            pull_out()
            sys.exit(0)
        typed += chunk
        while b"\n" in typed:
            line, typed = typed.split(b"\n", 1)
            if line.strip():
                command(line.decode().split())
    if master is not None and master in ready:
        try:
            heard += os.read(master, 4096)
        except OSError as problem:
            if problem.errno not in (errno.EIO, errno.EAGAIN):
                raise
        heard = heard.replace(b"\n", b"\r")
        while b"\r" in heard:
            question, heard = heard.split(b"\r", 1)
            if question:
                text = question.decode("ascii", "replace")
                for line in dressed(text, answer(text)):
                    send(line)
    now = time.monotonic()
    if args.mode == "stream" and now >= next_line:
        next_line += args.period
        if next_line < now:
            next_line = now + args.period
        if master is not None:
            advance()
            send(all_line())
    while pending and pending[0][0] <= now and master is not None:
        data = heapq.heappop(pending)[2]
        try:
            os.write(master, data)
        except BlockingIOError:
            pass  # nobody reads: an instrument does not wait either
