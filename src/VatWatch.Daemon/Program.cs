using System.Text;
using VatWatch.Daemon.Verbs;

Console.OutputEncoding = new UTF8Encoding(false);
return await VatWatchCommand.RunAsync(args, new VerbConsole(Console.Out, Console.Error, Console.IsInputRedirected ? null : Console.In));
