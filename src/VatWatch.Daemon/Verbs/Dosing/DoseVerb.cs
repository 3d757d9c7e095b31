using System.CommandLine;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Ledger.Doses;
using VatWatch.Science.Dosing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary><c>vatwatch dose</c>: how much to add, from figures on the command line, or for a configured vat from its store. Needs no running daemon.</summary>
internal static class DoseVerb
{
    public static Command Create(VerbConsole console) =>
        new("dose", "Say how much alkali or reducing agent to add, what that rests on and what to mind. An estimate, never an order.")
        {
            DoseAlkaliVerb.Create(console),
            DoseReducerVerb.Create(console),
        };
}

/// <summary>Options that both doses share.</summary>
internal static class DoseOptions
{
    public static Option<string?> Volume() => new("--volume") { Description = "Liquor in the vat, such as \"40 gal\" or \"60 L\".", HelpName = "VOLUME" };

    /// <summary>The units of who asks: whoever says the temperature in °F weighs in ounces.</summary>
    public static DisplayUnits UnitsOf(string temperature) => new(Typed.Quantity(temperature).EndsWith("°F", StringComparison.Ordinal));

    /// <summary>The option that carries a figure.</summary>
    public static string Named(string figure) => $"--{figure}";

    /// <summary>What was said, else what is known of the vat; a fault where neither is.</summary>
    public static string Said(DoseFigures figures, string name, string? said, string? known) =>
        said ?? known ?? figures.Missing(Named(name), "it, or --vat with the vat that knows it");

    public static Option<string?> Temperature() =>
        new("--temperature") { Description = "Its temperature, such as \"113 °F\" or \"45 °C\".", HelpName = "TEMPERATURE" };
}

/// <summary><c>vatwatch dose alkali</c>: soda ash to a wanted pH.</summary>
internal static class DoseAlkaliVerb
{
    public static Command Create(VerbConsole console)
    {
        var vat = new DosedVatOptions(console);
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
        command.SetAction(parsed => vat.Answer(
            parsed,
            (known, figures) => AlkaliDosing.Answer(new AlkaliAsked(
                DoseOptions.Said(figures, "volume", parsed.GetValue(volume), known?.Volume),
                DoseOptions.Said(figures, "temperature", parsed.GetValue(temperature), known?.Temperature),
                DoseOptions.Said(figures, "ph", parsed.GetValue(ph), known?.Now.Ph is { } now ? $"{now:0.###}" : null),
                DoseOptions.Said(figures, "target", parsed.GetValue(target), known?.Now.Facts.Vat is { } wish && VatDose.UsualPh(wish) is { } usual ? $"{usual:0.###}" : null),
                parsed.GetValue(alkalinity),
                parsed.GetValue(sodaAsh),
                parsed.GetValue(fibre) ?? known?.Now.Facts.Vat.Fibre.Word()).Read(figures, DoseOptions.Named, known?.Balance)),
            parsed.GetValue(temperature),
            parsed.GetValue(json)));
        return command;
    }
}

/// <summary><c>vatwatch dose reducer</c>: reducing agent for a mass of dye and for the oxygen of fresh water.</summary>
internal static class DoseReducerVerb
{
    public static Command Create(VerbConsole console)
    {
        var vat = new DosedVatOptions(console);
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
        command.SetAction(parsed => vat.Answer(
            parsed,
            (known, figures) => known is not null && parsed.GetValue(dye) is null
                ? new SharpeningAsked(parsed.GetValue(kind), parsed.GetValue(volume), parsed.GetValue(temperature), parsed.GetValue(orp), parsed.GetValue(orpTarget)).Answer(known.Now, known.Balance, figures, DoseOptions.Named)
                : ReducerDosing.Answer(new ReducerAsked(
                    DoseOptions.Said(figures, "kind", parsed.GetValue(kind), known?.Now.Facts.Reducer?.Name),
                    DoseOptions.Said(figures, "volume", parsed.GetValue(volume), known?.Volume),
                    DoseOptions.Said(figures, "temperature", parsed.GetValue(temperature), known?.Temperature),
                    DoseOptions.Said(figures, "dye", parsed.GetValue(dye), null),
                    parsed.GetValue(strength),
                    parsed.GetValue(clearOxygen),
                    parsed.GetValue(excess)).Read(figures, DoseOptions.Named)),
            parsed.GetValue(temperature),
            parsed.GetValue(json)));
        return command;
    }
}
