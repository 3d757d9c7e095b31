using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Dosing;

/// <summary>What a vat can be at all. A sentence says what was seen and what is wanted; null means that the value may stand.</summary>
internal static class Possible
{
    // A jam jar to a dye works' tank.
    private const double LeastVolumeL = 0.1;
    private const double MostVolumeL = 10_000;

    // Indigo suffers above 49 °C already, and a hot liquor with reducing agent in it gives off gas: nothing is weighed out for one.
    // The tables of carbonate were checked to here too.
    private const double MostTemperatureC = CarbonateConstants.CheckedToC;

    private const double LeastPh = 3;
    private const double MostPh = 14;

    // Fifty times the hardest water; a vat of 10 g/L of soda ash has 190.
    private const double MostMeqPerLitre = 1000;

    private const double MostDyeGramsPerLitre = 500;

    /// <summary>The first fault, or null.</summary>
    public static string? FirstFault(params ReadOnlySpan<string?> faults)
    {
        foreach (var fault in faults)
        {
            if (fault is not null)
                return fault;
        }

        return null;
    }

    public static string? Volume(double litres) => Fault(
        litres is >= LeastVolumeL and <= MostVolumeL,
        $"the volume is {InWords.Volume(litres)}; wanted {InWords.Volume(LeastVolumeL)} to {InWords.Volume(MostVolumeL)}");

    public static string? Temperature(double temperatureC) => Fault(
        temperatureC is >= 0 and <= MostTemperatureC,
        $"the temperature is {InWords.Temperature(temperatureC)}; wanted {InWords.Temperature(0)} to {InWords.Temperature(MostTemperatureC)}"
            + (temperatureC is > MostTemperatureC and <= 100 ? ": switch the heater off, air the room and let the vat cool before anything is added" : ""));

    public static string? Ph(double ph) => Fault(
        ph is >= LeastPh and <= MostPh, $"the pH now is {InWords.Plain(ph)}; wanted {LeastPh} to {MostPh}");

    public static string? TargetPh(double ph) => Fault(
        ph is >= 7 and <= 13, $"the wanted pH is {InWords.Plain(ph)}; wanted 7 to 13");

    public static string? Mass(string what, double grams) => Fault(
        grams >= 0 && double.IsFinite(grams), $"the {what} is {InWords.Plain(grams)} g; wanted 0 g or more");

    public static string? Alkalinity(double meqPerLitre) => Fault(
        meqPerLitre is >= 0 and <= MostMeqPerLitre, $"the alkalinity is {InWords.Plain(meqPerLitre)} meq/L; wanted 0 to {MostMeqPerLitre} meq/L");

    public static string? SodaAsh(double grams, double volumeL) => Fault(
        grams >= 0 && grams / volumeL <= SodaAshDose.SearchGramsPerLitre,
        $"the soda ash so far is {InWords.Mass(grams)} in {InWords.Volume(volumeL)}; wanted 0 g or more, and not above "
            + InWords.Strength(SodaAshDose.SearchGramsPerLitre));

    public static string? Dye(double grams, double volumeL) => Fault(
        grams / volumeL <= MostDyeGramsPerLitre,
        $"the dye is {InWords.Mass(grams)} in {InWords.Volume(volumeL)}; wanted at most {InWords.Strength(MostDyeGramsPerLitre)}, which is a thick paste");

    public static string? Share(string what, double share) => Fault(
        share is > 0 and <= 1, $"the {what} is {InWords.Plain(100 * share)} %; wanted above 0 % and up to 100 %");

    public static string? Excess(double excess) => Fault(
        excess is >= 1 and <= 20, $"the excess is {InWords.Plain(excess)} times theory; wanted 1 to 20 times");

    private static string? Fault(bool fits, string sentence) => fits ? null : sentence + ".";
}
