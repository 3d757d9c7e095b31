using VatWatch.Conditions;
using VatWatch.Tests.Store;

namespace VatWatch.Tests.Conditions;

/// <summary>Conditions of one vat some seconds after dusk.</summary>
internal static class KeptCondition
{
    public static VatCondition At(double seconds, VatState state = VatState.Warming, double temperatureC = 35.6, bool trusted = true) => new()
    {
        Vat = StoreRig.Madder,
        Stamp = new Stamp(StoreRig.Dusk.AddSeconds(seconds), TimeSpan.FromSeconds(seconds), trusted),
        State = state,
        Reasons = ["The liquor is warm.", "It is \"watched\" at 96 °F."],
        TemperatureC = temperatureC,
        OrpMillivolts = double.NaN,
        TimeToBand = new Forecast(TimeSpan.FromMinutes(40), TimeSpan.FromMinutes(50.04), null),
    };
}
