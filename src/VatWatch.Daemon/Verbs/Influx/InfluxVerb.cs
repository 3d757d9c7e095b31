using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Verbs.Influx;

/// <summary><c>vatwatch influx</c>: what can be done about the copy on a server.</summary>
internal static class InfluxVerb
{
    public static Command Create(VerbConsole console) => new("influx", "The copy of the store on an InfluxDB server.") { BackfillVerb.Create(console) };
}
