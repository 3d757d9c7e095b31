namespace VatWatch.Science.Heat.Model;

/// <summary>What covers the vat.</summary>
public enum Lid
{
    /// <summary>Open surface: all vapour leaves.</summary>
    Off,

    /// <summary>Lid laid on: a tenth of the open evaporation leaks out (estimate; 0 to 0.2).</summary>
    Loose,

    /// <summary>Tight lid or floating cover: no vapour leaves.</summary>
    Tight,
}
