using System.CommandLine;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Science.Dosing;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary><c>vatwatch dose alkali</c>: soda ash to a wanted pH.</summary>
internal static class DoseAlkaliVerb
{
    public static Command Create(VerbConsole console)
    {
        var volume = DoseOptions.Volume();
        var temperature = DoseOptions.Temperature();
        var ph = new Option<string>("--ph") { Description = "pH now, read in the vat at its temperature.", HelpName = "PH", Required = true };
        var target = new Option<string>("--target") { Description = "Wanted pH at the same temperature.", HelpName = "PH", Required = true };
        var alkalinity = new Option<string?>("--alkalinity")
        {
            Description = "Alkalinity of the liquor, or with --soda-ash-so-far of its water, such as \"2 meq/L\" or \"100 mg/L CaCO3\".",
            HelpName = "QUANTITY",
        };
        var sodaAsh = new Option<string?>("--soda-ash-so-far") { Description = "Soda ash given to this liquor so far, such as \"250 g\".", HelpName = "MASS" };
        var fibre = new Option<string?>("--fibre") { Description = "protein (or wool, silk) or cellulose (or cotton, linen); protein when not said.", HelpName = "FIBRE" };
        var json = CommonOptions.Json();
        var command = new Command("alkali", "Soda ash to bring the liquor to a pH.") { volume, temperature, ph, target, alkalinity, sodaAsh, fibre, json };
        command.SetAction(parsed =>
        {
            var figures = new DoseFigures();
            var request = new AlkaliAsked(
                parsed.GetValue(volume)!, parsed.GetValue(temperature)!, parsed.GetValue(ph)!, parsed.GetValue(target)!,
                parsed.GetValue(alkalinity), parsed.GetValue(sodaAsh), parsed.GetValue(fibre)).Read(figures, DoseOptions.Named);
            return DoseWriter.Complain(figures, console) ?? DoseWriter.Write(AlkaliDosing.Answer(request), DoseOptions.UnitsOf(parsed.GetValue(temperature)!), parsed.GetValue(json), console);
        });
        return command;
    }
}
