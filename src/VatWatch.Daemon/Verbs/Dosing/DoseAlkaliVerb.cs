using System.CommandLine;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Ledger.Doses;
using VatWatch.Science.Dosing;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary><c>vatwatch dose alkali</c>: soda ash to a wanted pH.</summary>
internal static class DoseAlkaliVerb
{
    public static Command Create(VerbConsole console, TimeProvider time)
    {
        var vat = DosedVat.Options.Create();
        var volume = DoseOptions.Volume();
        var temperature = DoseOptions.Temperature();
        var ph = new Option<string?>("--ph") { Description = "pH now, read in the vat at its temperature.", HelpName = "PH" };
        var target = new Option<string?>("--target") { Description = "Wanted pH at the same temperature; with --vat the middle of its band when not said.", HelpName = "PH" };
        var alkalinity = new Option<string?>("--alkalinity")
        {
            Description = "Alkalinity of the liquor, or with --soda-ash-so-far of its water, such as \"2 meq/L\" or \"100 mg/L CaCO3\".",
            HelpName = "QUANTITY",
        };
        var sodaAsh = new Option<string?>("--soda-ash-so-far") { Description = "Soda ash given to this liquor so far, such as \"250 g\".", HelpName = "MASS" };
        var fibre = new Option<string?>("--fibre") { Description = "protein (or wool, silk) or cellulose (or cotton, linen); protein when not said.", HelpName = "FIBRE" };
        var json = CommonOptions.Json();
        var command = new Command("alkali", "Soda ash to bring the liquor to a pH.") { volume, temperature, ph, target, alkalinity, sodaAsh, fibre, json };
        vat.AddTo(command);
        command.SetAction(parsed => DosedVat.Answer(
            vat,
            parsed,
            (known, figures) => AlkaliDosing.Answer(new AlkaliAsked(
                DoseOptions.Said(figures, "volume", parsed.GetValue(volume), known is null ? null : $"{known.Balance.Liquor.Value:0.###} L"),
                DoseOptions.Said(figures, "temperature", parsed.GetValue(temperature), known?.Now.TemperatureC is { } warm ? $"{warm:0.##} °C" : null),
                DoseOptions.Said(figures, "ph", parsed.GetValue(ph), known?.Now.Ph is { } now ? $"{now:0.###}" : null),
                DoseOptions.Said(figures, "target", parsed.GetValue(target), known?.Now.Facts.Vat is { } wish && VatDose.UsualPh(wish) is { } usual ? $"{usual:0.###}" : null),
                parsed.GetValue(alkalinity),
                parsed.GetValue(sodaAsh),
                parsed.GetValue(fibre) ?? known?.Now.Facts.Vat.Fibre.Word()).Read(figures, DoseOptions.Named, known?.Balance)),
            parsed.GetValue(temperature),
            parsed.GetValue(json),
            time,
            console));
        return command;
    }
}
