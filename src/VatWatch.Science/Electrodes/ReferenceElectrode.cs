using System.Diagnostics.CodeAnalysis;

namespace VatWatch.Science.Electrodes;

/// <summary>
/// A reference electrode and its potential against the standard hydrogen electrode. Printed values of one filling differ by up to
/// 3 mV with the source and with whether the liquid junction is counted. Immutable; safe on any thread.
/// </summary>
public sealed class ReferenceElectrode
{
    private readonly TemperatureTable millivolts;

    private ReferenceElectrode(string name, TemperatureTable millivolts)
    {
        Name = name;
        this.millivolts = millivolts;
    }

    /// <summary>Standard hydrogen electrode: 0 mV at every temperature, by definition.</summary>
    public static ReferenceElectrode StandardHydrogen { get; } = new("SHE",
        new TemperatureTable(double.NegativeInfinity, double.PositiveInfinity, (0, 0), (100, 0)));

    /// <summary>Silver chloride in 1 mol/L KCl. Source: ISO 11271:2002 Annex C; the 25 °C row was seen, the rest is from memory.</summary>
    public static ReferenceElectrode SilverChloride1M { get; } = new("Ag/AgCl 1 M KCl", new TemperatureTable(0, 50,
        (0, 249), (5, 247), (10, 244), (15, 242), (20, 239), (25, 236), (30, 233), (35, 230), (40, 227), (45, 224), (50, 221)));

    /// <summary>
    /// Silver chloride in 3 mol/L KCl, the usual probe. Source: ISO 11271:2002 Annex C, 5 to 40 °C as printed by an instrument
    /// maker, 0, 45 and 50 °C from memory.
    /// </summary>
    public static ReferenceElectrode SilverChloride3M { get; } = new("Ag/AgCl 3 M KCl", new TemperatureTable(0, 50,
        (0, 224), (5, 221), (10, 217), (15, 214), (20, 210), (25, 207), (30, 203), (35, 200), (40, 196), (45, 192), (50, 188)));

    /// <summary>
    /// The same filling by USGS National Field Manual A6.5 (Nordstrom and Wilde, v1.2, 2005): 2 to 3 mV higher. Rows above 40 °C
    /// are extended by fits, ±2 mV, and flagged.
    /// </summary>
    public static ReferenceElectrode SilverChloride3MUsgs { get; } = new("Ag/AgCl 3 M KCl (USGS)", new TemperatureTable(10, 40,
        (10, 220), (15, 216), (20, 213), (25, 209), (30, 205), (35, 201), (40, 197), (45, 193), (50, 189), (60, 181)));

    /// <summary>Silver chloride in 3.5 mol/L KCl. Source: USGS A6.5 after Sawyer, Sobkowiak and Roberts 1995; extended and flagged above 40 °C.</summary>
    public static ReferenceElectrode SilverChloride3M5 { get; } = new("Ag/AgCl 3.5 M KCl", new TemperatureTable(10, 40,
        (10, 215), (15, 212), (20, 208), (25, 205), (30, 201), (35, 197), (40, 193), (45, 190), (50, 186), (60, 178)));

    /// <summary>Silver chloride in saturated KCl. Source: USGS A6.5 after Sawyer, Sobkowiak and Roberts 1995; extended and flagged above 40 °C.</summary>
    public static ReferenceElectrode SilverChlorideSaturated { get; } = new("Ag/AgCl saturated KCl", new TemperatureTable(10, 40,
        (10, 214), (15, 209), (20, 204), (25, 199), (30, 194), (35, 189), (40, 184), (45, 178), (50, 173), (60, 163)));

    /// <summary>
    /// Saturated calomel. Source: a glossary's table, 15 to 35 °C, junction included; beyond it the line 244.4 − 0.675 (t − 25),
    /// fitted to those rows, flagged.
    /// </summary>
    public static ReferenceElectrode SaturatedCalomel { get; } = new("SCE", new TemperatureTable(15, 35,
        (15, 251.1), (20, 247.9), (25, 244.4), (30, 241.1), (35, 237.6), (40, 234.275), (60, 220.775)));

    /// <summary>Every reference electrode known here.</summary>
    public static IReadOnlyList<ReferenceElectrode> All { get; } =
    [
        StandardHydrogen, SilverChloride1M, SilverChloride3M, SilverChloride3MUsgs, SilverChloride3M5, SilverChlorideSaturated,
        SaturatedCalomel,
    ];

    /// <summary>The name it is written and shown by, such as <c>Ag/AgCl 3 M KCl</c>.</summary>
    public string Name { get; }

    /// <summary>
    /// Its potential against the standard hydrogen electrode, mV. Straight lines between rows; flagged where the source gives no row.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature does not exist.</exception>
    public Estimate MillivoltsVsShe(double temperatureC) => millivolts.At(temperatureC);

    /// <summary>
    /// Reads a name as people write it: <c>SHE</c>, <c>NHE</c>, <c>SCE</c>, <c>Ag/AgCl 3 M KCl</c>, <c>Ag/AgCl (sat. KCl)</c>,
    /// <c>Ag/AgCl, 3.5 mol/L</c>. A filling must be named: bare <c>Ag/AgCl</c> may mean anything from 163 to 249 mV.
    /// </summary>
    /// <returns>False, and no electrode, when the text names none known here.</returns>
    public static bool TryParse(string? text, [NotNullWhen(true)] out ReferenceElectrode? electrode)
    {
        electrode = ReferenceElectrodeName.Find(text);
        return electrode is not null;
    }

    /// <inheritdoc cref="TryParse"/>
    /// <exception cref="FormatException">The text names no electrode known here; the message says what was seen and what is wanted.</exception>
    public static ReferenceElectrode Parse(string? text)
        => TryParse(text, out var electrode)
            ? electrode
            : throw new FormatException(
                $"Reference electrode is \"{text}\"; wanted one of: {string.Join(", ", All.Select(e => e.Name))}.");

    public override string ToString() => Name;
}
