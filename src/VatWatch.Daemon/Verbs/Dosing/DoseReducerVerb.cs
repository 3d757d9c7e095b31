using System.CommandLine;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Science.Dosing;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary><c>vatwatch dose reducer</c>: reducing agent for a mass of dye and for the oxygen of fresh water.</summary>
internal static class DoseReducerVerb
{
    public static Command Create(VerbConsole console, TimeProvider time)
    {
        var vat = DosedVat.Options.Create();
        var kind = new Option<string?>("--kind") { Description = "thiourea-dioxide, dithionite or fructose; with --vat its own when not said.", HelpName = "KIND" };
        var volume = DoseOptions.Volume();
        var temperature = DoseOptions.Temperature();
        var dye = new Option<string?>("--dye") { Description = "Dye to be reduced, as weighed, such as \"125 g\" or \"4 oz\"; with --vat a weak vat is sharpened when not said.", HelpName = "MASS" };
        var strength = new Option<string?>("--dye-strength") { Description = "Share of indigo in the dye, such as \"40 %\"; all of it when not said.", HelpName = "SHARE" };
        var clearOxygen = new Option<bool>("--clear-oxygen") { Description = "The water is fresh and full of air: clear its oxygen too." };
        var excess = new Option<string?>("--excess") { Description = "How many times theory to give the dye, 1 to 20.", HelpName = "TIMES" };
        var orp = new Option<string?>("--orp") { Description = "ORP of the vat now, such as \"-610 mV\"; from its probe when not said.", HelpName = "POTENTIAL" };
        var orpTarget = new Option<string?>("--orp-target") { Description = "Wanted ORP; somewhat below the vat's mark of a weak one when not said.", HelpName = "POTENTIAL" };
        var json = CommonOptions.Json();
        var command = new Command("reducer", "Reducing agent for a mass of dye, or for a vat that has become weak.") { kind, volume, temperature, dye, strength, clearOxygen, excess, orp, orpTarget, json };
        vat.AddTo(command);
        command.SetAction(parsed => DosedVat.Answer(
            vat,
            parsed,
            (known, figures) => known is not null && parsed.GetValue(dye) is null
                ? new SharpeningAsked(parsed.GetValue(kind), parsed.GetValue(volume), parsed.GetValue(temperature), parsed.GetValue(orp), parsed.GetValue(orpTarget)).Answer(known.Now, known.Balance, figures, DoseOptions.Named)
                : ReducerDosing.Answer(new ReducerAsked(
                    DoseOptions.Said(figures, "kind", parsed.GetValue(kind), known?.Now.Facts.Reducer?.Name),
                    DoseOptions.Said(figures, "volume", parsed.GetValue(volume), known is null ? null : $"{known.Balance.Liquor.Value:0.###} L"),
                    DoseOptions.Said(figures, "temperature", parsed.GetValue(temperature), known?.Now.TemperatureC is { } warm ? $"{warm:0.##} °C" : null),
                    DoseOptions.Said(figures, "dye", parsed.GetValue(dye), null),
                    parsed.GetValue(strength),
                    parsed.GetValue(clearOxygen),
                    parsed.GetValue(excess)).Read(figures, DoseOptions.Named)),
            parsed.GetValue(temperature),
            parsed.GetValue(json),
            time,
            console));
        return command;
    }
}
