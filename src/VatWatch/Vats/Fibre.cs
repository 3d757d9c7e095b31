namespace VatWatch.Vats;

/// <summary>What is dyed: it decides how much alkali the goods stand.</summary>
public enum Fibre
{
    /// <summary>Wool, silk, hair: harmed by alkali.</summary>
    Protein,

    /// <summary>Cotton, linen, hemp, viscose.</summary>
    Cellulose,
}
