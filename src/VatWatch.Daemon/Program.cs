using System.Text;
using VatWatch.Daemon.Verbs;

Console.OutputEncoding = new UTF8Encoding(false);
var console = new VerbConsole(Console.Out, Console.Error, Console.IsInputRedirected ? null : Console.In) { IsTerminal = !Console.IsErrorRedirected };
return await VatWatchCommand.RunAsync(args, console);
