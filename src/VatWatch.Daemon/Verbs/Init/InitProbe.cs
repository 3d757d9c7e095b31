using VatWatch.Daemon.Wiring;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary>Writes one probe of a first configuration, with settings to begin from.</summary>
internal static class InitProbe
{
    private const string Indent = "        ";

    public static string Write(ProbeWish wish, string bus, string id)
    {
        var every = wish.Quantity switch
        {
            Quantity.Ph or Quantity.Level => "30 s",
            Quantity.Orp => "10 s",
            Quantity.Ambient => "60 s",
            _ => "5 s",
        };
        var (settings, note) = Catalog.Everything.Drivers[wish.Driver].Begin(wish.Quantity, wish.Place.Text);
        var head = $"{{ \"id\": \"{id}\", \"measures\": \"{wish.Quantity.Word()}\", \"bus\": \"{bus}\", \"driver\": \"{wish.Driver}\", \"every\": \"{every}\"";
        var comment = note.Length == 0 ? "" : $"{Indent}// {note}\n";
        return $"{comment}{Indent}{head}{(settings.Length == 0 ? "" : $",\n{Indent}  \"settings\": {settings}")} }}";
    }
}
