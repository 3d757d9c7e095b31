namespace VatWatch.Science.Indigo;

/// <summary>The substances of the vat with their molar masses, added up from the standard atomic weights (IUPAC).</summary>
public static class Substances
{
    /// <summary>Indigotin, C.I. Vat Blue 1: the insoluble blue dye.</summary>
    public static Substance Indigo { get; } = new("indigo", "C16H10N2O2", "482-89-3", 262.27);

    /// <summary>Indigo white, the reduced dye in its acid form.</summary>
    public static Substance LeucoIndigo { get; } = new("leuco-indigo", "C16H12N2O2", "6537-68-4", 264.28);

    /// <summary>Thiourea dioxide, also formamidinesulfinic acid.</summary>
    public static Substance ThioureaDioxide { get; } = new("thiourea dioxide", "CH4N2O2S", "1758-73-2", 108.12);

    /// <summary>Sodium dithionite, the hydrosulfite of the trade.</summary>
    public static Substance SodiumDithionite { get; } = new("sodium dithionite", "Na2S2O4", "7775-14-6", 174.11);

    /// <summary>Soda ash: anhydrous sodium carbonate.</summary>
    public static Substance SodaAsh { get; } = new("soda ash", "Na2CO3", "497-19-8", 105.99);

    /// <summary>Washing soda: sodium carbonate decahydrate, 2.700 g for 1 g of soda ash.</summary>
    public static Substance WashingSoda { get; } = new("washing soda", "Na2CO3·10H2O", "6132-02-1", 286.14);

    /// <summary>Slaked lime: calcium hydroxide.</summary>
    public static Substance SlakedLime { get; } = new("slaked lime", "Ca(OH)2", "1305-62-0", 74.09);

    /// <summary>Lye: sodium hydroxide.</summary>
    public static Substance Lye { get; } = new("lye", "NaOH", "1310-73-2", 40.00);

    /// <summary>Fruit sugar.</summary>
    public static Substance Fructose { get; } = new("fructose", "C6H12O6", "57-48-7", 180.16);

    /// <summary>Grape sugar.</summary>
    public static Substance Glucose { get; } = new("glucose", "C6H12O6", "50-99-7", 180.16);

    /// <summary>Copperas: iron(II) sulfate heptahydrate.</summary>
    public static Substance Copperas { get; } = new("copperas", "FeSO4·7H2O", "7782-63-0", 278.01);

    /// <summary>Zinc dust.</summary>
    public static Substance Zinc { get; } = new("zinc", "Zn", "7440-66-6", 65.38);

    /// <summary>Oxygen of the air.</summary>
    public static Substance Oxygen { get; } = new("oxygen", "O2", "7782-44-7", 31.998);

    public static IReadOnlyList<Substance> All { get; } =
    [
        Indigo, LeucoIndigo, ThioureaDioxide, SodiumDithionite, SodaAsh, WashingSoda, SlakedLime, Lye, Fructose, Glucose, Copperas,
        Zinc, Oxygen,
    ];
}

/// <summary>A substance of the vat. Immutable; safe on any thread.</summary>
/// <param name="Name">Its name in the trade.</param>
/// <param name="Formula">Its formula; water of crystallisation after a middle dot.</param>
/// <param name="CasNumber">Its CAS registry number (from memory unless a source is named).</param>
/// <param name="MolarMassGramsPerMole">Molar mass, g/mol.</param>
public sealed record Substance(string Name, string Formula, string CasNumber, double MolarMassGramsPerMole);
