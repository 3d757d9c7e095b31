using System.CommandLine;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Science.Dosing;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary><c>vatwatch dose reducer</c>: reducing agent for a mass of dye and for the oxygen of fresh water.</summary>
internal static class DoseReducerVerb
{
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
            var request = new ReducerAsked(
                parsed.GetValue(kind)!, parsed.GetValue(volume)!, parsed.GetValue(temperature)!, parsed.GetValue(dye)!,
                parsed.GetValue(strength), parsed.GetValue(clearOxygen), parsed.GetValue(excess)).Read(figures, DoseOptions.Named);
            return DoseWriter.Complain(figures, console) ?? DoseWriter.Write(ReducerDosing.Answer(request), DoseOptions.UnitsOf(parsed.GetValue(temperature)!), parsed.GetValue(json), console);
        });
        return command;
    }
}
