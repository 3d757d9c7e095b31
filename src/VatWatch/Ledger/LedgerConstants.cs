using VatWatch.Sessions.Entries;

namespace VatWatch.Ledger;

/// <summary>What the ledger takes where nobody said, each with its standard deviation. Ranges are wide on purpose: readings narrow them.</summary>
internal static class LedgerConstants
{
    /// <summary>Liquor of a vat of which nothing is written: full, as configured; share of it that this may be off.</summary>
    public const double FullShare = 0.07;

    /// <summary>A volume that was said; share of it.</summary>
    public const double VolumeShare = 0.02;

    /// <summary>A mass that was weighed; share of it (a kitchen scale and what stays in the cup; common practice, no source).</summary>
    public const double MassShare = 0.03;

    /// <summary>Contents of a liquor of which nothing is written, per litre: a working vat of medium strength (common practice, no source).</summary>
    public static readonly (double Mean, double Sigma) UnknownIndigoGrams = (1.5, 1);
    public static readonly (double Mean, double Sigma) UnknownAlkaliEquivalents = (0.025, 0.015);
    public static readonly (double Mean, double Sigma) UnknownCarbonateMoles = (0.018, 0.01);
    public static readonly (double Mean, double Sigma) UnknownReducerGrams = (0.3, 0.3);

    /// <summary>Stock whose strength nobody said, g/L (common practice, no source).</summary>
    public static readonly (double Mean, double Sigma) StockStrength = (50, 20);

    /// <summary>Indigotin in dye whose assay nobody said: synthetic above 0.95, natural below 0.5 (indigo-chemistry reference).</summary>
    public static readonly (double Mean, double Sigma) DyeAssay = (0.8, 0.18);

    /// <summary>Spread of the assay of reducing agent as sold.</summary>
    public const double ReducerAssaySpread = 0.04;

    /// <summary>
    /// Indigo that 1 kg of dry goods takes from liquor of 1 g/L in a dip of five minutes, g: cotton warp takes 0.2 to 0.5 % of its weight a dip from 1 to 3 g/L (rope dyers' habit,
    /// from memory); wool takes more (common practice, no source).
    /// </summary>
    public static double UptakePerKilogram(Fibre fibre, GoodsKind kind) => (fibre == Fibre.Protein ? 2.5 : 1.5) * kind switch
    {
        GoodsKind.Cloth => 0.8,
        GoodsKind.Garment => 0.7,
        _ => 1,
    };

    /// <summary>Spread of the uptake of one vat and its goods against that, as a logarithm.</summary>
    public const double UptakeSpread = 0.6;

    /// <summary>The same of one dip against another.</summary>
    public const double DipSpread = 0.25;

    /// <summary>A dip for which the uptake stands; a longer one takes more with the root of its time (Fick's law, early times).</summary>
    public static TimeSpan UsualDip { get; } = TimeSpan.FromMinutes(5);

    /// <summary>Liquor that wet goods carry out after squeezing, L for 1 kg dry: 0.5 to 2 (common practice, no source).</summary>
    public static readonly (double Mean, double Sigma) Carried = (1, 0.4);

    /// <summary>Air that goods carry under, L for 1 kg dry (common practice, no source).</summary>
    public const double CarriedAir = 1;

    /// <summary>Litres of liquor for 1 kg of goods where nobody weighed them (common practice, no source); share that this may be off.</summary>
    public const double UsualLiquorRatio = 40;
    public const double UnweighedShare = 0.6;

    /// <summary>Spread of what air burns in one vat against film theory, as a logarithm: its band of transfer velocities reaches over a factor of three.</summary>
    public const double AirSpread = 0.6;

    /// <summary>Evaporation through a lid laid on, share of the open vat (estimate, 0 to 0.2: heat-balance reference).</summary>
    public const double ThroughLid = 0.1;
    public const double EvaporationShare = 0.4;

    /// <summary>A room where nothing was measured.</summary>
    public const double RoomC = 18;
    public const double RoomHumidity = 0.6;

    /// <summary>Readings by hand: a strip's pH, an assay or swatch, a titration (common practice, no source).</summary>
    public const double StripPh = 0.3;
    public const double AssayShare = 0.12;
    public const double TitrationShare = 0.06;
}
