using VatWatch.Science.Heat;

namespace VatWatch.Science.Dosing;

/// <summary>What to mind at any warm, alkaline vat.</summary>
public static class VatCautions
{
    // Above about 43 °C hot liquor hurts; from here the caution stands.
    private const double PainfulC = 43;

    public const string SheetFirst =
        "Read the supplier's safety data sheet for the pack in your hand first; it goes before everything said here, and sheets differ.";

    public const string Eyes =
        "A splash in the eye: rinse at once with plenty of water for at least 15 minutes, lids open, and go on rinsing on the way to a doctor.";

    /// <summary>Those that hang on the temperature of the liquor, °C from 0 to 100.</summary>
    public static IEnumerable<string> At(double temperatureC)
    {
        yield return "Pull the heater's plug before you reach into the vat.";
        yield return "A vat that stood closed for long: air the room first, lift the far edge of the lid, away from your face, and never lean in.";
        if (temperatureC < PainfulC)
            yield break;

        yield return ScaldTime.At(temperatureC).Words is { } time
            ? $"Scald: liquor of {InWords.Temperature(temperatureC)} burns adult skin {time}, a child's sooner."
            : $"Scald: liquor of {InWords.Temperature(temperatureC)} is painful and burns with long contact, a child's skin sooner.";
    }
}
