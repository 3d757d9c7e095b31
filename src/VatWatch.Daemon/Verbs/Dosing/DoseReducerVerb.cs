using System.CommandLine;
using VatWatch.Science.Dosing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary><c>vatwatch dose reducer</c>: reducing agent for a mass of dye and for the oxygen of fresh water.</summary>
internal static class DoseReducerVerb
{
    private static readonly (string Word, ReducerKind Value)[] Kinds = [.. ReducerKind.All.Select(kind => (kind.Name, kind))];

    public static Command Create(VerbConsole console)
    {
        var kind = new Option<string>("--kind") { Description = "thiourea-dioxide, dithionite or fructose.", HelpName = "KIND", Required = true };
        var volume = DoseOptions.Volume();
        var temperature = DoseOptions.Temperature();
        var dye = new Option<string>("--dye") { Description = "Dye to be reduced, as weighed, such as \"125 g\" or \"4 oz\".", HelpName = "MASS", Required = true };
        var strength = new Option<string?>("--dye-strength") { Description = "Share of indigo in the dye, such as \"40 %\"; all of it when not said.", HelpName = "SHARE" };
        var clearOxygen = new Option<bool>("--clear-oxygen") { Description = "The water is fresh and full of air: clear its oxygen too." };
        var excess = new Option<string?>("--excess") { Description = "How many times theory to give the dye, 1 to 20.", HelpName = "TIMES" };
        var json = CommonOptions.Json();
        var command = new Command("reducer", "Reducing agent for a mass of dye.") { kind, volume, temperature, dye, strength, clearOxygen, excess, json };
        command.SetAction(parsed =>
        {
            var figures = new DoseFigures();
            var request = new ReducerDoseRequest(
                figures.Word("--kind", parsed.GetValue(kind)!, Kinds),
                figures.Quantity("--volume", parsed.GetValue(volume)!, QuantityKind.Volume, 0.1, 100_000),
                figures.Quantity("--temperature", parsed.GetValue(temperature)!, QuantityKind.Temperature, 0, 100),
                figures.Quantity("--dye", parsed.GetValue(dye)!, QuantityKind.Mass, 0, 100_000))
            {
                DyeAssay = figures.OptionalQuantity("--dye-strength", parsed.GetValue(strength), QuantityKind.Percent, 0, 100) / 100,
                ClearOxygen = parsed.GetValue(clearOxygen),
                Excess = figures.OptionalNumber("--excess", parsed.GetValue(excess), "a number of times such as 2"),
            };
            return figures.Complain(console) ?? DoseWriter.Write(ReducerDosing.Answer(request), parsed.GetValue(json), console);
        });
        return command;
    }
}
