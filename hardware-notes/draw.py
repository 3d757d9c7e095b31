#!/usr/bin/env python3
"""Draws the diagrams of these notes: `python3 draw.py` writes every wiring.svg here, `python3 draw.py --check` says which differ from what is kept.

Only Python's own library. One function for each picture; the class Drawing knows boxes, wires, resistors, the bath.
A wire's kind shows in its stroke as well as in its label, so that nothing hangs on colour.
"""
import sys
from pathlib import Path
from xml.sax.saxutils import escape

HERE = Path(__file__).parent
STYLE = """
    .paper { fill: #fbfaf6 } .liquor { fill: #d9e2ee; stroke: none } .part { fill: #ffffff; stroke: #23272e; stroke-width: 2 }
    .barrier { fill: none; stroke: #23272e; stroke-width: 2; stroke-dasharray: 3 5 } .wall { fill: none; stroke: #23272e; stroke-width: 3 }
    .wire { fill: none; stroke: #23272e; stroke-width: 1.6 } .supply { fill: none; stroke: #9a3b12; stroke-width: 3 }
    .ground { fill: none; stroke: #23272e; stroke-width: 3 } .mains { fill: none; stroke: #9a3b12; stroke-width: 4; stroke-dasharray: 14 5 }
    .dot { fill: #23272e } text { fill: #23272e; font: 14px sans-serif } .small { font-size: 12.5px } .strong { font-weight: bold } .mid { text-anchor: middle } .end { text-anchor: end }
    @media (prefers-color-scheme: dark) {
      .paper { fill: #171a20 } .liquor { fill: #2b3f5c } .part { fill: #20242c; stroke: #e6e3da } .barrier, .wall, .wire, .ground { stroke: #e6e3da }
      .supply, .mains { stroke: #f0a070 } .dot, text { fill: #e6e3da }
    }
"""


class Drawing:
    """One picture, `width` by `height` user units."""

    def __init__(self, width, height, title, desc):
        self.width, self.height, self.title, self.desc, self.shapes = width, height, title, desc, []

    def add(self, shape):
        self.shapes.append("  " + shape)

    def text(self, x, y, words, kind=""):
        self.add(f'<text x="{x}" y="{y}"{f" class={chr(34)}{kind}{chr(34)}" if kind else ""}>{escape(words)}</text>')

    def box(self, x, y, w, h, *lines, kind="part", at=None):
        """A part; its lines stand centred from `at` below its upper edge."""
        self.add(f'<rect x="{x}" y="{y}" width="{w}" height="{h}" rx="4" class="{kind}"/>')
        start = y + (at if at is not None else (h - 18 * len(lines)) / 2 + 14)
        for row, words in enumerate(lines):
            self.text(x + w / 2, start + 18 * row, words, "mid" + (" strong" if row == 0 else " small"))

    def wire(self, path, kind="wire"):
        self.add(f'<path d="{path}" class="{kind}"/>')

    def dot(self, x, y):
        self.add(f'<circle cx="{x}" cy="{y}" r="4" class="dot"/>')

    def pins(self, left, right, top, rows, step=34):
        """Wires from the box that ends at `left` to the one that starts at `right`: (kind, pin on the left, words above, pin on the right)."""
        for row, (kind, pin, words, other) in enumerate(rows):
            y = top + step * row
            self.wire(f"M{left} {y} H{right}", kind)
            self.text(left - 8, y + 5, pin, "end small")
            self.text(right + 8, y + 5, other, "small")
            self.text((left + right) / 2, y - 6, words, "mid small")

    def resistor(self, x, y, words, upright=True):
        """A resistor whose middle is (x, y)."""
        w, h = (14, 40) if upright else (40, 14)
        self.add(f'<rect x="{x - w / 2}" y="{y - h / 2}" width="{w}" height="{h}" class="part"/>')
        if upright:
            self.text(x + 14, y + 5, words, "small")
        else:
            self.text(x, y + (26 if words == "element" else -13), words, "mid small")

    def bath(self, x, y, w, h, words="liquor"):
        """An open vat with liquor in it; probes are drawn after it."""
        self.add(f'<rect x="{x}" y="{y + 26}" width="{w}" height="{h - 26}" class="liquor"/>')
        self.wire(f"M{x} {y} V{y + h} H{x + w} V{y}", "wall")
        self.text(x + w / 2, y + h - 10, words, "mid small")

    def rod(self, x, top, bottom, w=12):
        """A probe hanging from `top` to `bottom`."""
        self.add(f'<rect x="{x - w / 2}" y="{top}" width="{w}" height="{bottom - top}" rx="5" class="part"/>')

    def save(self):
        return "\n".join([
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {self.width} {self.height}" role="img" aria-labelledby="title desc">',
            f'  <title id="title">{escape(self.title)}</title>', f'  <desc id="desc">{escape(self.desc)}</desc>', f"  <style>{STYLE}  </style>",
            f'  <rect width="{self.width}" height="{self.height}" class="paper"/>', *self.shapes, "</svg>", ""])


def text_line():
    d = Drawing(880, 520, "An instrument that talks in lines of text, joined to the computer in three ways.",
                "By USB: instrument, USB isolator, computer. By RS-232: receive and transmit crossed, ground straight, into an isolated RS-232 adapter. "
                "By bare pins at 3.3 or 5 volts: crossed likewise, into an isolated adapter of the same level.")
    d.box(20, 40, 190, 90, "instrument", "with a USB socket")
    d.box(440, 40, 150, 90, "USB isolator", "one to each electrode", "instrument")
    d.wire("M210 85 H440")
    d.text(325, 77, "its own USB cable", "mid small")
    for y, name, level, adapter, sort in ((170, "instrument", "RS-232 plug", "isolated adapter", "USB to RS-232"), (340, "instrument", "bare pins, 3.3 V or 5 V", "isolated adapter", "USB to that level")):
        d.box(20, y, 190, 140, name, level, at=22)
        d.box(440, y, 150, 140, adapter, sort, at=22)
        d.pins(210, 440, y + 62, [("wire", "TX", "crossed", "RX"), ("wire", "RX", "crossed", "TX"), ("ground", "GND", "straight", "GND")], 30)
    d.box(730, 40, 130, 440, "computer", "USB sockets", "/dev/serial/by-id/")
    for y in (85, 240, 410):
        d.wire(f"M590 {y} H730")
        d.text(660, y - 8, "USB", "mid small")
    d.text(440, 505, "Take one of the three. RS-232 levels destroy bare pins, and a 5 V TX must not meet a 3.3 V RX.", "mid small")
    return d


def modbus():
    d = Drawing(880, 480, "Two transmitters and a converter on one RS-485 line.",
                "An isolated USB converter at one end, then the first and the second transmitter one after the other. A, B and common run through; 120 ohm across A and B at both ends; "
                "the shield is joined at the converter only. One extra-low supply feeds both transmitters, out by its plus wire and back by its minus wire. Their probes hang in the liquor.")
    d.box(20, 40, 140, 150, "computer", "USB")
    d.wire("M160 115 H212")
    d.text(186, 107, "USB", "mid small")
    d.box(212, 40, 158, 150, "isolated converter", "USB to RS-485", at=22)
    d.box(500, 40, 130, 150, "transmitter", "address 1", at=22)
    d.box(730, 40, 130, 150, "transmitter", "address 17", at=22)
    for row, (kind, pin) in enumerate((("wire", "A"), ("wire", "B"), ("ground", "C"))):
        y = 100 + 34 * row
        for left, right in ((370, 500), (630, 730)):
            d.wire(f"M{left} {y} H{right}", kind)
            d.text(left - 8, y + 5, pin, "end small")
            d.text(right + 8, y + 5, pin, "small")
    d.wire("M410 100 V134")
    d.wire("M705 100 V134")
    for x in (410, 705):
        d.dot(x, 100)
        d.dot(x, 134)
        d.add(f'<rect x="{x - 6}" y="107" width="12" height="20" class="part"/>')
    d.text(436, 90, "120 Ω at this end", "mid small")
    d.text(680, 90, "120 Ω here", "mid small")
    for left, right in ((370, 500), (630, 730)):
        d.wire(f"M{left} 182 H{right}", "barrier")
    d.text(435, 206, "shield: joined at", "mid small")
    d.text(435, 223, "the converter only", "mid small")
    d.text(680, 206, "shield goes on", "mid small")
    d.box(350, 248, 130, 76, "supply", "extra-low,", "isolated")
    for y, kind, sign, at in ((266, "supply", "+", 610), (304, "ground", "−", 590)):
        d.wire(f"M480 {y} H{at + 230} V190", kind)
        d.wire(f"M{at} {y} V190", kind)
        d.dot(at, y)
        d.text(488, y - 6, sign, "small")
    d.bath(530, 352, 330, 110, "liquor")
    for x in (552, 772):
        d.wire(f"M{x} 190 V256 a10 10 0 0 1 0 20 V294 a10 10 0 0 1 0 20 V350")
        d.rod(x, 350, 430)
    d.text(20, 356, "A and B are one twisted pair, C is common.", "small")
    d.text(20, 378, "No star: the line passes from device to device.", "small")
    d.text(20, 400, "Swap A and B when nothing answers at the first try.", "small")
    d.text(20, 422, "Inputs isolated from the line, in each transmitter.", "small")
    return d


def electrodes():
    d = Drawing(880, 560, "A pH electrode and a thermistor on one ADS1115, behind an isolator.",
                "The electrode's plug enters an amplifier whose output goes to input A0. A 10 kilohm resistor from 3.3 volts and the thermistor to ground meet at input A1. "
                "Input A3 measures the supply. The ADS1115's SDA, SCL, supply and ground pass an isolator to the computer's header.")
    d.bath(20, 350, 230, 180, "liquor")
    d.box(20, 60, 170, 80, "pH amplifier", "high-ohm input")
    d.rod(70, 250, 470, 16)
    d.wire("M70 250 V140")
    d.text(82, 205, "electrode's own cable,", "small")
    d.text(82, 223, "dry plug, not lengthened", "small")
    d.rod(220, 330, 450)
    d.box(400, 60, 150, 300, "ADS1115", "address 0x48", at=26)
    d.wire("M190 100 H400")
    d.text(285, 92, "0 to 3.3 V, zero in the middle", "mid small")
    d.text(408, 105, "A0", "small")
    d.wire("M320 190 V290")
    d.resistor(320, 190, "10 kΩ")
    d.wire("M320 170 V150", "supply")
    d.wire("M320 150 H400", "supply")
    d.text(312, 155, "3.3 V", "end small")
    d.text(408, 155, "VDD", "small")
    d.dot(320, 240)
    d.wire("M320 240 H400")
    d.text(408, 245, "A1", "small")
    d.wire("M320 290 H214 V330")
    d.text(306, 282, "to thermistor", "end small")
    d.wire("M226 330 V310 H400", "ground")
    d.text(408, 315, "GND", "small")
    d.dot(386, 150)
    d.wire("M386 150 V200 H400")
    d.text(408, 205, "A3", "small")
    d.text(262, 395, "thermistor sealed", "small")
    d.text(262, 413, "and insulated", "small")
    d.box(640, 60, 90, 300, "isolator", "signal", "and supply", kind="part", at=26)
    d.wire("M685 132 V350", "barrier")
    d.box(800, 60, 70, 300, "header", at=26)
    for y, pin, kind in ((150, "VDD", "supply"), (200, "SDA", "wire"), (250, "SCL", "wire"), (310, "GND", "ground")):
        d.wire(f"M550 {y} H640", kind)
        d.wire(f"M730 {y} H800", kind)
        d.text(542, y + 5, pin, "end small")
        d.text(595, y - 7, "far side", "mid small")
        d.text(808, y + 5, "3.3 V" if pin == "VDD" else pin, "small")
    d.text(400, 405, "ADDR to GND 0x48, VDD 0x49, SDA 0x4A, SCL 0x4B.", "small")
    d.text(400, 427, "Pull-ups for SDA and SCL on both sides of the isolator.", "small")
    d.text(400, 449, "The far side has no other way to ground than through the isolator.", "small")
    d.text(400, 471, "An ORP electrode gets a board and an isolator of its own.", "small")
    d.text(400, 515, "Amplifier and thermistor live on the far side too: its VDD and GND.", "small")
    d.text(400, 493, "Without A3, set \"supply\" to what a meter shows.", "small")
    return d


def isolation():
    d = Drawing(880, 340, "Each electrode's board stands behind an isolator of its own; only isolators lead to the computer.",
                "The pH electrode's amplifier with its ADS1115 and the ORP electrode's board each have an isolator for signal and supply. They share neither ground nor supply.")
    d.bath(20, 90, 150, 150, "liquor")
    d.rod(60, 75, 190)
    d.rod(125, 75, 190)
    d.box(270, 40, 230, 80, "pH amplifier, ADS1115", "and a sealed thermistor")
    d.box(270, 210, 230, 80, "ORP electrode's board", "µFire ISE")
    d.wire("M60 75 V60 H270")
    d.wire("M125 75 V66 H220 V250 H270")
    d.box(570, 40, 110, 80, "isolator", "signal, supply", kind="part")
    d.box(570, 210, 110, 80, "isolator", "signal, supply", kind="part")
    d.box(760, 40, 100, 250, "computer", "I2C, 3.3 V")
    for y in (80, 250):
        d.wire(f"M500 {y} H570")
        d.wire(f"M680 {y} H760")
    d.wire("M270 165 H680", "barrier")
    d.text(475, 158, "nothing joins the two boards on this side", "mid small")
    d.text(440, 325, "Signal and supply both pass the isolator. The two boards share neither ground nor supply.", "mid small")
    return d


def thermometers():
    d = Drawing(880, 480, "A thermocouple amplifier and a board thermometer on one I2C bus.",
                "Supply, ground, SDA and SCL run from the header to the MCP960x and on to the MCP9808. The thermocouple's plus and minus wires run from the MCP960x to a sheath in the liquor "
                "with an insulated junction, in cable of the thermocouple's own type all the way.")
    d.box(20, 40, 110, 200, "header", at=24)
    d.box(300, 40, 190, 200, "MCP960x", "address 0x67", at=24)
    d.box(670, 40, 190, 200, "MCP9808", "address 0x18", at=24)
    rows = (("supply", "3.3 V", "VDD"), ("wire", "SDA", "SDA"), ("wire", "SCL", "SCL"), ("ground", "GND", "GND"))
    d.pins(130, 300, 100, [(kind, pin, "inside the box" if pin == "SDA" else "", other) for kind, pin, other in rows])
    d.pins(490, 670, 100, [(kind, other, "", other) for kind, _, other in rows])
    d.text(580, 230, "pull-ups once per bus", "mid small")
    d.bath(300, 310, 220, 145, "liquor")
    d.wire("M375 240 V318")
    d.wire("M405 240 V318")
    d.text(367, 256, "T+", "end small")
    d.text(413, 256, "T−", "small")
    d.rod(390, 316, 415, 44)
    d.wire("M375 318 V390 L390 402 L405 390 V318")
    d.text(550, 300, "Thermocouple cable of its own type all the way;", "small")
    d.text(550, 320, "swapped, it falls when the liquor warms.", "small")
    d.text(550, 360, "Junction insulated from the sheath, or an I2C", "small")
    d.text(550, 380, "isolator with its own supply before the MCP960x.", "small")
    d.text(550, 420, "The MCP9808 stays in the room or in the box.", "small")
    d.text(40, 300, "Two chips must not share", "small")
    d.text(40, 320, "an address: set their", "small")
    d.text(40, 340, "address pins apart.", "small")
    return d


def platinum():
    d = Drawing(880, 615, "A platinum element on an MAX31865, with two, three or four wires.",
                "The board takes supply, ground, clock, data in, data out and chip select from the header. Below, the terminals F+, RTD+, RTD- and F-: "
                "two wires with a bridge at either end, three wires with the pair on F+ and RTD+ and a bridge on the other side, four wires with no bridge.")
    d.box(140, 30, 120, 240, "header", at=24)
    d.box(520, 30, 200, 240, "MAX31865 board", at=24)
    d.pins(260, 520, 84, [("supply", "3.3 V", "supply", "VIN"), ("ground", "GND", "ground", "GND"), ("wire", "SCLK", "clock", "CLK"), ("wire", "MOSI", "to the chip", "SDI"),
                          ("wire", "MISO", "from the chip", "SDO"), ("wire", "CE0", "chip select", "CS")])
    for x, count, note in ((20, 2, "the cable counts"), (313, 3, "the usual probe"), (606, 4, "cancels the cable")):
        d.box(x, 310, 254, 56, "", at=20)
        d.text(x + 127, 330, f"{count} wires: {note}", "mid strong")
        for n, name in enumerate(("F+", "RTD+", "RTD−", "F−")):
            d.text(x + 34 + 62 * n, 355, name, "mid small")
        left, inner_left, inner_right, right = x + 34, x + 96, x + 158, x + 220
        d.wire(f"M{inner_left} 366 V490 H{x + 107}")
        d.wire(f"M{inner_right} 366 V490 H{x + 147}")
        d.resistor(x + 127, 490, "element", upright=False)
        # With three wires the chip takes the drop between F+ and RTD+ off the reading, so the pair belongs on that side.
        for outer, inner, middle, bridged in ((left, inner_left, x + 65, count == 2), (right, inner_right, x + 189, count < 4)):
            bend = 392 if bridged else 470
            d.wire(f"M{outer} 366 V{bend} H{inner}")
            d.dot(inner, bend)
            if bridged:
                d.text(middle, 410, "bridge", "mid small")
        d.box(x + 85, 440, 84, 86, kind="barrier")
        d.text(x + 127, 545, "in the sheath", "mid small")
    d.text(440, 576, "The board has its own jumpers for the number of wires: set them by its sheet, and \"wires\" alike.", "mid small")
    d.text(440, 598, "The element's wires touch neither the sheath nor earth.", "mid small")
    return d


def onewire():
    d = Drawing(880, 400, "Three thermometers on one 1-wire cable, each with a supply wire.",
                "Supply, data and ground run from the header past three thermometers, two in the liquor and one in the room. One 4.7 kilohm resistor joins data and supply at the header.")
    d.box(20, 40, 120, 160, "header", at=24)
    lanes = (("supply", "3.3 V", 84), ("wire", "data", 124), ("ground", "GND", 164))
    for kind, name, y in lanes:
        d.wire(f"M140 {y} H780", kind)
        d.text(132, y + 5, name, "end small")
    d.wire("M200 84 V124")
    d.dot(200, 84)
    d.dot(200, 124)
    d.add('<rect x="193" y="92" width="14" height="24" class="part"/>')
    d.text(214, 109, "4.7 kΩ, once", "small")
    d.bath(320, 250, 270, 125, "liquor")
    for x, bottom in ((390, 330), (520, 345), (760, 300)):
        for offset, (kind, _, y) in zip((-20, 0, 20), lanes):
            d.dot(x + offset, y)
            d.wire(f"M{x + offset} {y} V262", kind)
        d.rod(x, 256, bottom, 56)
    d.text(760, 320, "in the room", "mid small")
    d.text(20, 270, "From thermometer to thermometer,", "small")
    d.text(20, 290, "no star.", "small")
    d.text(20, 325, "Sleeves must keep liquor out:", "small")
    d.text(20, 345, "these chips share the", "small")
    d.text(20, 365, "computer's ground.", "small")
    return d


def text_board():
    d = Drawing(880, 430, "An electrode board that speaks text on I2C, behind an isolator.",
                "The electrode's plug enters the board. The board's SDA, SCL, supply and ground pass an isolator for signal and supply to the computer's header. "
                "A thermometer of its own hangs in the liquor beside the electrode and tells the board, through the computer, how warm the liquor is.")
    d.bath(20, 230, 230, 170)
    d.rod(80, 170, 340, 16)
    d.wire("M80 170 V90 H290")
    d.text(92, 112, "electrode's own cable", "small")
    d.box(290, 40, 150, 170, "electrode board", "set to I2C", at=24)
    d.box(540, 40, 110, 170, "isolator", "signal, supply", at=24)
    d.box(750, 40, 110, 300, "computer", "header", at=24)
    d.wire("M595 88 V202", "barrier")
    for y, pin, kind in ((96, "VCC", "supply"), (128, "SDA", "wire"), (160, "SCL", "wire"), (192, "GND", "ground")):
        d.wire(f"M440 {y} H540", kind)
        d.wire(f"M650 {y} H750", kind)
        d.text(432, y + 5, pin, "end small")
        d.text(758, y + 5, "3.3 V" if pin == "VCC" else pin, "small")
    d.text(490, 86, "far side", "mid small")
    d.rod(190, 215, 330)
    d.wire("M190 215 V200 H270 V300 H750")
    d.text(510, 292, "the liquor's thermometer, by its own page", "mid small")
    d.text(280, 375, "The computer tells the board the liquor's temperature with each command.", "small")
    d.text(280, 397, "One board and one isolator to each electrode.", "small")
    return d


def kernel_values():
    d = Drawing(880, 330, "A chip that a driver of Linux reads, and the file in which its value stands.",
                "The probe's amplifier is wired to the header as its own page says. The kernel's driver reads it and shows a raw value, a scale and an offset in files; VatWatch reads the files.")
    d.box(20, 60, 150, 110, "chip", "with its probe", "in the liquor")
    d.box(270, 60, 150, 110, "kernel's driver", "loaded by an", "overlay")
    d.box(520, 40, 190, 150, "files", "in_temp_raw", "in_temp_scale", "in_temp_offset")
    d.box(770, 60, 90, 110, "VatWatch", "reads")
    for left, right, words in ((170, 270, "I2C or SPI"), (420, 520, ""), (710, 770, "")):
        d.wire(f"M{left} 115 H{right}")
        d.text((left + right) / 2, 107, words, "mid small")
    d.text(20, 240, "Wire the chip by the page of its kind: thermometers on I2C, platinum, electrodes. Isolation is the same.", "small")
    d.text(20, 264, "value = (raw + offset) × scale, in thousandths of a °C, in mV or in mW", "small")
    d.text(20, 288, "Either the kernel's driver or one of VatWatch's own reads a chip, never both.", "small")
    return d


def contacts():
    d = Drawing(880, 470, "A float switch and a relay's spare contact on two lines of the header.",
                "Each contact joins a line to ground through 1 kilohm at the header. The chip's own resistor pulls the line to 3.3 volts while the contact is open. "
                "The relay's contact is a separate one that carries no mains.")
    d.box(20, 50, 120, 250, "header", "3.3 V logic", at=24)
    for y, line, words in ((120, "line 17", "float"), (210, "line 27", "relay")):
        d.wire(f"M140 {y} H560")
        d.text(132, y + 5, line, "end small")
        d.resistor(210, y, "1 kΩ", upright=False)
    d.wire("M140 270 H680", "ground")
    d.text(132, 275, "GND", "end small")
    d.wire("M560 120 H620")
    d.wire("M620 120 L654 104")
    d.dot(620, 120)
    d.dot(660, 120)
    d.wire("M660 120 H680 V270", "ground")
    d.text(640, 92, "float switch", "mid small")
    d.wire("M560 210 H590")
    d.wire("M590 210 L624 194")
    d.dot(590, 210)
    d.dot(630, 210)
    d.wire("M630 210 H650 V270", "ground")
    d.text(610, 184, "spare contact", "mid small")
    d.box(704, 160, 162, 80, "relay, contactor", "its coil and its mains", "are not ours")
    d.wire("M690 150 V250", "barrier")
    d.text(350, 310, "twisted pair, away from mains cables", "mid small")
    d.bath(400, 340, 340, 110)
    d.rod(520, 350, 385, 40)
    d.wire("M520 350 V330")
    d.text(556, 384, "float, its cable up and out", "small")
    d.text(20, 360, "No voltage but the header's own 3.3 V may", "small")
    d.text(20, 382, "come to a line: take a dry contact, that is", "small")
    d.text(20, 404, "one which nothing else is wired to.", "small")
    return d


def heater():
    d = Drawing(880, 520, "What must be able to stop the heater, without VatWatch.",
                "From the supply: breaker, ground-fault protection, plug, independent thermostat, high-limit cut-out reset by hand, low-level switch, heater in the liquor. "
                "VatWatch has only probes in the liquor and no connection to that chain. This is not a wiring plan.")
    chain = ((20, "breaker", "its own circuit"), (194, "ground fault", "GFCI or RCD"), (368, "plug", "above the liquor"))
    for x, name, note in chain:
        d.box(x, 40, 140, 70, name, note)
    for left, right in ((160, 194), (334, 368), (508, 542)):
        d.wire(f"M{left} 75 H{right}", "mains")
    d.box(542, 40, 150, 70, "thermostat", "independent, listed")
    d.wire("M692 75 H775 V150", "mains")
    d.box(690, 150, 170, 70, "high-limit cut-out", "reset by hand")
    d.wire("M775 220 V260", "mains")
    d.box(690, 260, 170, 70, "level switch", "or dry protection")
    d.wire("M690 295 H600 V345", "mains")
    d.bath(280, 320, 380, 170)
    d.text(470, 506, "wall and floor of the bin: never touched by the element", "mid small")
    d.box(560, 385, 80, 72, "heater", "in a guard")
    d.wire("M600 345 V385", "mains")
    d.rod(350, 290, 420)
    d.wire("M350 290 V215")
    d.text(372, 400, "probe where the", "small")
    d.text(372, 418, "goods hang", "small")
    d.box(230, 150, 240, 65, "VatWatch", "reads, tells, switches nothing")
    d.wire("M500 135 V290", "barrier")
    d.text(512, 190, "no wire between the", "small")
    d.text(512, 208, "watch and this chain", "small")
    d.text(20, 270, "What belongs in the chain,", "small")
    d.text(20, 290, "not a wiring plan: that is", "small")
    d.text(20, 310, "work for a licensed electrician,", "small")
    d.text(20, 330, "by the local code and the", "small")
    d.text(20, 350, "makers' instructions.", "small")
    return d


PICTURES = {
    "text-line/wiring.svg": text_line, "modbus-rtu/wiring.svg": modbus, "electrodes-ads1115/wiring.svg": electrodes, "electrodes-ads1115/isolation.svg": isolation,
    "i2c-thermometers/wiring.svg": thermometers, "platinum-max31865/wiring.svg": platinum, "onewire/wiring.svg": onewire, "heaters.svg": heater,
    "i2c-text/wiring.svg": text_board, "kernel-values/wiring.svg": kernel_values, "contacts/wiring.svg": contacts,
}


def main():
    differing = [name for name, picture in PICTURES.items() if not (HERE / name).exists() or (HERE / name).read_text(encoding="utf-8") != picture().save()]
    if "--check" in sys.argv[1:]:
        print("\n".join(f"{name} is not what draw.py draws; run it" for name in differing) or "all drawings are as draw.py draws them")
        return 1 if differing else 0
    for name in differing:
        (HERE / name).write_text(PICTURES[name]().save(), encoding="utf-8")
        print(f"drew {name}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
