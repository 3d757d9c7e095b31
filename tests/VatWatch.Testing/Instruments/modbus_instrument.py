#!/usr/bin/python3
"""A Modbus RTU device by a foreign hand: pymodbus serving on a pseudo-terminal.

Two pseudo-terminals are joined back to back; pymodbus opens one, the program under test the other, by a symbolic link.
Device 17: input register 8 holds 10; holding registers 107 to 109 hold AE41, 5652, 4340; input registers 100 to 107 hold 48.37 as a float in
the byte orders ABCD, CDAB, BADC, DCBA; input register 200 holds -6554 (hundredths), 201 and 202 -65536 as one number.
Device 18: holding register 0 holds 4520. Any other address stays silent.

Commands on standard input, one a line: "set DEVICE hr|ir REGISTER VALUE", "quit"; each is answered by "ok" or "bad ...".
"""
import asyncio, logging, os, select, sys, threading, tty
from pymodbus.datastore import ModbusSequentialDataBlock, ModbusServerContext, ModbusSlaveContext
from pymodbus.server import StartAsyncSerialServer
from pymodbus.transaction import ModbusRtuFramer

logging.disable(logging.CRITICAL)
link = sys.argv[1]
near_master, near = os.openpty()
far_master, far = os.openpty()
for terminal in (near, far):
    tty.setraw(terminal)
os.symlink(os.ttyname(near), link)


def pump():
    while True:
        ready, _, _ = select.select([near_master, far_master], [], [])
        for source in ready:
            data = os.read(source, 4096)
            os.write(far_master if source == near_master else near_master, data)


def registers(filled):
    words = [0] * 1000
    for start, values in filled.items():
        words[start:start + len(values)] = values
    return ModbusSequentialDataBlock(0, words)


devices = {
    17: ModbusSlaveContext(
        hr=registers({107: [0xAE41, 0x5652, 0x4340]}),
        ir=registers({8: [10], 100: [0x4241, 0x7AE1, 0x7AE1, 0x4241, 0x4142, 0xE17A, 0xE17A, 0x4142], 200: [0x10000 - 6554, 0xFFFF, 0]}),
        zero_mode=True),
    18: ModbusSlaveContext(hr=registers({0: [4520]}), ir=registers({}), zero_mode=True),
}


def commands():
    for line in sys.stdin:
        words = line.split()
        if words == ["quit"]:
            break
        if len(words) == 5 and words[0] == "set":
            devices[int(words[1])].setValues(3 if words[2] == "hr" else 4, int(words[3]), [int(words[4])])
            print("ok", flush=True)
        elif words:
            print("bad " + " ".join(words), flush=True)
    os.unlink(link)
    os._exit(0)


async def serve():
    threading.Thread(target=pump, daemon=True).start()
    server = asyncio.ensure_future(StartAsyncSerialServer(
        context=ModbusServerContext(slaves=devices, single=False), framer=ModbusRtuFramer, port=os.ttyname(far), baudrate=9600,
        ignore_missing_slaves=True))
    await asyncio.sleep(0.3)
    print("ready", flush=True)
    threading.Thread(target=commands, daemon=True).start()
    await server


asyncio.run(serve())
