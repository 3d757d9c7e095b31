using VatWatch.Probes.Blocking;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c.TextBoard;

/// <summary>
/// The driver <c>i2c-text</c>: an electrode board that takes a command in text, works, and then answers with a status byte and text.
/// </summary>
/// <remarks>
/// <para><c>address</c>: <c>"0x08"</c> to <c>"0x77"</c>, by the board's sheet.</para>
/// <para><c>ask</c>: the command for one reading, such as <c>R</c>, with the escapes of <c>text-line</c>; <c>{temperature}</c> in it is filled
/// with the liquor's temperature, °C, and without a good one nothing is asked.</para>
/// <para><c>wait</c>: how long the board works on it, 10 ms to 2 s (default 1 s).</para>
/// <para><c>unit</c>, <c>pattern</c> (default: the text is the number), <c>refuse</c>, <c>status</c>, <c>checksum</c>, <c>scale</c>, <c>offset</c>,
/// <c>decimal</c>: as for <c>text-line</c>.</para>
/// </remarks>
public sealed class TextBoardDriver : IProbeDriver
{
    public string Word => "i2c-text";

    public string BusKind => I2cBusKind.Name;

    public string? Notes => "i2c-text";

    public BenchAdvice Advice { get; } = new(
        "Is the board powered, switched to I2C (many leave the works speaking serial), and its address the one on its sheet?",
        "Compare the text shown with \"pattern\" and \"unit\". Odd bytes: the computer does not wait while the board holds the clock; set a low speed.");

    public FirstSettings Begin(Quantity measures, string place) => new(
        $$"""{ "address": "0x63", "ask": "R", "wait": "1 s", "unit": "{{measures.Unit()}}" }""",
        "From the board's sheet: its address, the command for a reading and how long it takes. For pH with compensation: a command with {temperature} in it.");

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        var address = I2cAddress.Read(settings, 0x08, 0x77);
        var unit = TextLineDriver.ReadUnit(settings, measures);
        var ask = TextLineDriver.ReadAsk(settings, measures, isNeeded: true);
        var wait = settings.Duration("wait", TimeSpan.FromMilliseconds(10), TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(1));
        var board = new TextBoardSettings(ask ?? AskText.Nothing, wait, TextLineDriver.ReadLinePattern(settings, "^(?<value>[-+]?[0-9.]+)$"));
        return new(unit, (bus, _, probe, known) => new ChipProbe<GuardedI2cDevice>(
            probe, "the electrode board", new I2cSeat(bus, address), device => new TextBoardChip(device, board, () => known.Of(probe.Vat))));
    }
}

/// <summary>How an electrode board of the text kind is read.</summary>
/// <param name="Wait">How long it works on an answer.</param>
/// <param name="Pattern">How the value is got out of the text.</param>
internal sealed record TextBoardSettings(AskText Ask, TimeSpan Wait, LinePattern Pattern);
