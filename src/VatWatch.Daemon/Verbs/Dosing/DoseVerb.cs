using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary><c>vatwatch dose</c>: how much to add, from figures on the command line, or for a configured vat from its store. Needs no running daemon.</summary>
internal static class DoseVerb
{
    public static Command Create(VerbConsole console) => Create(console, TimeProvider.System);

    public static Command Create(VerbConsole console, TimeProvider time) =>
        new("dose", "Say how much alkali or reducing agent to add, what that rests on and what to mind. An estimate, never an order.")
        {
            DoseAlkaliVerb.Create(console, time),
            DoseReducerVerb.Create(console, time),
        };
}
