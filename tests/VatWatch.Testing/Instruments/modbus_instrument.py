#!/usr/bin/python3
"""A Modbus device by a foreign hand: pymodbus serving on a pseudo-terminal, or with "tcp" for the link, on a port of the loopback that it names.

Two pseudo-terminals are joined back to back; pymodbus opens one, the program under test the other, by a symbolic link.
Device 17: input register 8 holds 10; holding registers 107 to 109 hold AE41, 5652, 4340; input registers 100 to 107 hold 48.37 as a float in
the byte orders ABCD, CDAB, BADC, DCBA; input register 200 holds -6554 (hundredths), 201 and 202 -65536 as one number.
Low register first: 210 and 211 hold -65536, 212 and 213 hold 0x12345; 220 holds 4750. Coil 5 and discrete input 9 are on, others off.
Device 18: holding register 0 holds 4520. Any other address stays silent.

Commands on standard input, one a line; each is answered by "ok" or "bad ...":
  set DEVICE hr|ir REGISTER VALUE
  silent on|off       answers are swallowed
  split on|off        each answer in two halves, 30 ms apart
  late SECONDS        each answer that much later (0: at once)
  drip SECONDS        each byte of an answer that much after the one before (0: all at once)
  hangup, return      pulls the plug (the link is gone), and puts it back
  quit
"""
import asyncio, errno, heapq, logging, os, select, sys, threading, time, tty
from pymodbus.datastore import ModbusSequentialDataBlock, ModbusServerContext, ModbusSlaveContext
from pymodbus.server import StartAsyncSerialServer
from pymodbus.server.async_io import ModbusTcpServer
from pymodbus.transaction import ModbusRtuFramer

logging.disable(logging.CRITICAL)
link = sys.argv[1]
on_network = link == "tcp"
far_master, far = os.openpty()
tty.setraw(far)
near_master = near = None
wake_read, wake_write = os.pipe()
turn = threading.Lock()
manner = {"silent": False, "split": False, "late": 0.0, "drip": 0.0}
pending = []  # heap of (time, order, bytes)
order = 0


def plug_in():
    global near_master, near
    near_master, near = os.openpty()
    tty.setraw(near)
    os.set_blocking(near_master, False)
    os.symlink(os.ttyname(near), link)


def pull_out():
    global near_master, near
    os.unlink(link)
    os.close(near_master)
    os.close(near)
    near_master = near = None
    pending.clear()


def queue(data, after):
    global order
    order += 1
    heapq.heappush(pending, (time.monotonic() + after, order, data))


def answer(data):
    if manner["silent"]:
        return
    if manner["drip"] > 0:
        pieces = [(data[place:place + 1], place * manner["drip"]) for place in range(len(data))]
    elif manner["split"]:
        pieces = [(data[:len(data) // 2], 0.0), (data[len(data) // 2:], 0.03)]
    else:
        pieces = [(data, 0.0)]
    for piece, after in pieces:
        queue(piece, manner["late"] + after)


def read(descriptor):
    try:
        return os.read(descriptor, 4096)
    except OSError as problem:
        if problem.errno not in (errno.EIO, errno.EAGAIN, errno.EBADF):
            raise
        return b""


def pump():
    while True:
        with turn:
            now = time.monotonic()
            while pending and pending[0][0] <= now:
                data = heapq.heappop(pending)[2]
                if near_master is not None:
                    try:
                        os.write(near_master, data)
                    except BlockingIOError:
                        pass  # nobody reads: an instrument does not wait either
            wait = max(0.0, pending[0][0] - now) if pending else 1.0
            watched = [wake_read, far_master] + ([near_master] if near_master is not None else [])
        ready, _, _ = select.select(watched, [], [], wait)
        with turn:
            if wake_read in ready:
                os.read(wake_read, 100)
            if far_master in ready:
                answer(read(far_master))
            if near_master is not None and near_master in ready:
                data = read(near_master)
                if data:
                    os.write(far_master, data)


if not on_network:
    plug_in()


def registers(filled):
    words = [0] * 1000
    for start, values in filled.items():
        words[start:start + len(values)] = values
    return ModbusSequentialDataBlock(0, words)


devices = {
    17: ModbusSlaveContext(
        hr=registers({107: [0xAE41, 0x5652, 0x4340]}),
        ir=registers({8: [10], 100: [0x4241, 0x7AE1, 0x7AE1, 0x4241, 0x4142, 0xE17A, 0xE17A, 0x4142], 200: [0x10000 - 6554, 0xFFFF, 0],
            210: [0, 0xFFFF, 0x2345, 1], 220: [4750]}),
        co=registers({5: [1]}), di=registers({9: [1]}),
        zero_mode=True),
    18: ModbusSlaveContext(hr=registers({0: [4520]}), ir=registers({}), zero_mode=True),
}


def obey(words):
    verb = words[0]
    if len(words) == 5 and verb == "set":
        devices[int(words[1])].setValues(3 if words[2] == "hr" else 4, int(words[3]), [int(words[4])])
    elif len(words) == 2 and verb in ("silent", "split") and words[1] in ("on", "off"):
        manner[verb] = words[1] == "on"
    elif len(words) == 2 and verb in ("late", "drip"):
        manner[verb] = float(words[1])
    elif words == ["hangup"] and near_master is not None:
        pull_out()
    elif words == ["return"] and near_master is None:
        plug_in()
    else:
        return False
    return True


def commands():
    for line in sys.stdin:
        words = line.split()
        if words == ["quit"]:
            break
        if words:
            with turn:
                done = obey(words)
                os.write(wake_write, b"!")
            print("ok" if done else "bad " + " ".join(words), flush=True)
    with turn:
        if near_master is not None:
            os.unlink(link)
    os._exit(0)


async def serve_network():
    server = ModbusTcpServer(ModbusServerContext(slaves=devices, single=False), address=("127.0.0.1", 0), ignore_missing_slaves=True)
    serving = asyncio.ensure_future(server.serve_forever())
    await server.serving
    print("ready", server.server.sockets[0].getsockname()[1], flush=True)
    threading.Thread(target=commands, daemon=True).start()
    await serving


async def serve():
    threading.Thread(target=pump, daemon=True).start()
    server = asyncio.ensure_future(StartAsyncSerialServer(
        context=ModbusServerContext(slaves=devices, single=False), framer=ModbusRtuFramer, port=os.ttyname(far), baudrate=9600,
        ignore_missing_slaves=True))
    await asyncio.sleep(0.3)
    print("ready", flush=True)
    threading.Thread(target=commands, daemon=True).start()
    await server


asyncio.run(serve_network() if on_network else serve())
