namespace VatWatch.Science.Carbonate;

/// <summary>An ion as the extended Debye-Hückel equation sees it. Sizes and slopes from memory, supported by the fit to three NBS buffers.</summary>
/// <param name="Charge">Absolute charge number.</param>
/// <param name="SizeAngstrom">Ion size parameter, ångström.</param>
/// <param name="SlopeKgPerMol">Linear term in ionic strength, kg/mol.</param>
public readonly record struct Ion(int Charge, double SizeAngstrom, double SlopeKgPerMol)
{
    public static Ion Hydrogen => new(1, 9.0, 0);

    public static Ion Hydroxide => new(1, 3.5, 0);

    public static Ion Bicarbonate => new(1, 5.4, 0);

    public static Ion Carbonate => new(2, 5.4, 0);

    public static Ion Calcium => new(2, 5.0, 0.165);

    public static Ion CalciumHydroxide => new(1, 6.0, 0);
}
