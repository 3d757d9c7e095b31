using System.Text;
using VatWatch.Daemon.Verbs;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Daemon.Wiring;

Console.OutputEncoding = new UTF8Encoding(false);
var console = new VerbConsole(Console.Out, Console.Error, Console.IsInputRedirected ? null : Console.In) { IsTerminal = !Console.IsErrorRedirected, Width = FoldedText.Width };
return await VatWatchCommand.RunAsync(args, console);
