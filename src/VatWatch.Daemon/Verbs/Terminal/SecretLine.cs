using System.Text;

namespace VatWatch.Daemon.Verbs.Terminal;

/// <summary>Reads a line that must not be seen: from the keyboard without showing it, or from what was piped in.</summary>
internal static class SecretLine
{
    /// <summary>The line after <paramref name="prompt"/>; null when there is none or Escape was pressed.</summary>
    public static string? Read(string prompt, TextWriter to)
    {
        if (Console.IsInputRedirected)
        {
            return Console.In.ReadLine();
        }

        to.Write(prompt);
        to.Flush();
        var line = new StringBuilder();
        while (true)
        {
            var key = Console.ReadKey(intercept: true);
            switch (key.Key)
            {
                case ConsoleKey.Enter:
                    to.WriteLine();
                    return line.ToString();
                case ConsoleKey.Escape:
                    to.WriteLine();
                    return null;
                case ConsoleKey.Backspace:
                    line.Length = Math.Max(0, line.Length - 1);
                    break;
                default:
                    if (!char.IsControl(key.KeyChar))
                    {
                        line.Append(key.KeyChar);
                    }

                    break;
            }
        }
    }
}
