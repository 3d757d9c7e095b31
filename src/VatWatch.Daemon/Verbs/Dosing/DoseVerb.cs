using System.CommandLine;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Science.Dosing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary><c>vatwatch dose</c>: how much to add, from figures on the command line. Needs no configuration and no running daemon.</summary>
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
    public static Option<string> Volume() => new("--volume") { Description = "Liquor in the vat, such as \"40 gal\" or \"60 L\".", HelpName = "VOLUME", Required = true };

    /// <summary>The units of who asks: whoever says the temperature in °F weighs in ounces.</summary>
    public static DisplayUnits UnitsOf(string temperature) => new(Typed.Quantity(temperature).EndsWith("°F", StringComparison.Ordinal));

    /// <summary>The option that carries a figure.</summary>
    public static string Named(string figure) => $"--{figure}";

    public static Option<string> Temperature() =>
        new("--temperature") { Description = "Its temperature, such as \"113 °F\" or \"45 °C\".", HelpName = "TEMPERATURE", Required = true };
}

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
