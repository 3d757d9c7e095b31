using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;

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
