using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Daemon.Web.Security;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Verbs;

/// <summary>
/// <c>vatwatch password</c>: makes the line that a password file holds, or a program's token and the line that a token file holds. Passwords are never
/// taken from the command line, where other people of the computer can read them.
/// </summary>
internal static class PasswordVerb
{
    /// <summary>Asks for a secret line; tests hand in their own.</summary>
    public delegate string? Ask(string prompt, TextWriter to);

    public static Command Create(VerbConsole console, Ask? ask = null)
    {
        var command = new Command("password", "Make the hash of a password for web.passwordFile or web.viewerPasswordFile, or a token for web.tokenFile.");
        var token = new Option<string?>("--token") { Description = "Make a token for the program of this name instead; it is shown once.", HelpName = "NAME" };
        var role = new Option<string?>("--role") { Description = "What the token may do: viewer (default) or operator.", HelpName = "ROLE" };
        role.AcceptOnlyFromAmong([.. EnumWord.All<Role>().Keys]);
        var to = new Option<string?>("--out") { Description = "Write the line to this file, which only its owner may read; a token's line is added to it.", HelpName = "FILE" };
        command.Options.Add(token);
        command.Options.Add(role);
        command.Options.Add(to);
        command.SetAction(parsed => parsed.GetValue(token) is { } name
            ? MakeToken(name, EnumWord.Find<Role>(parsed.GetValue(role)) ?? Role.Viewer, parsed.GetValue(to), console)
            : parsed.GetValue(role) is not null
                ? console.Fail(ExitCode.WrongUsage, "--role goes with --token; a password's role is the key that names its file.")
                : MakePassword(parsed.GetValue(to), console, ask ?? SecretLine.Read));
        return command;
    }

    private static int MakePassword(string? file, VerbConsole console, Ask ask)
    {
        if (ask("Password: ", console.Error) is not { } password)
        {
            return console.Fail(ExitCode.WrongUsage, "there was no password; nothing was written.");
        }

        if (password.Length is < PasswordHash.ShortestPassword or > PasswordHash.LongestPassword)
        {
            return console.Fail(ExitCode.WrongUsage,
                $"the password has {password.Length} characters; wanted {PasswordHash.ShortestPassword} to {PasswordHash.LongestPassword}. Nothing was written.");
        }

        if (console.Person is not null && ask("Once more: ", console.Error) != password)
        {
            return console.Fail(ExitCode.WrongUsage, "the two are not the same; nothing was written.");
        }

        var line = PasswordHash.Of(password).ToString();
        if (file is null)
        {
            console.Out.WriteLine(line);
            return ExitCode.Success;
        }

        return Write(file, line, isAdded: false, console);
    }

    private static int MakeToken(string name, Role role, string? file, VerbConsole console)
    {
        if (!ConfigNode.IsName(name))
        {
            return console.Fail(ExitCode.WrongUsage, $"the token's name is {ConfigNode.Quote(name)}; wanted {ConfigNode.NameWanted}.");
        }

        var (token, line) = ApiToken.Make(name, role);
        if (file is not null && Write(file, line.ToString(), isAdded: true, console) is not ExitCode.Success and var code)
        {
            return code;
        }

        console.Error.WriteLine($"The token of {name} ({role.Word()}), shown only now; it goes into the header Authorization: Bearer TOKEN.");
        console.Out.WriteLine(token);
        if (file is null)
        {
            console.Error.WriteLine("The line for web.tokenFile:");
            console.Out.WriteLine(line);
        }

        return ExitCode.Success;
    }

    private static int Write(string file, string line, bool isAdded, VerbConsole console)
    {
        try
        {
            using (var stream = new FileStream(file, Options(isAdded)))
            using (var writer = new StreamWriter(stream))
            {
                writer.WriteLine(line);
            }

            if (!OperatingSystem.IsWindows())
            {
                // A file that was there keeps its mode when it is opened.
                File.SetUnixFileMode(file, UnixFileMode.UserRead | UnixFileMode.UserWrite);
            }

            console.Error.WriteLine($"Written to {file}; VatWatch reads it when it starts.");
            return ExitCode.Success;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return console.Fail(ExitCode.Failure, $"{ConfigNode.Quote(file)} could not be written: {problem.Message}");
        }
    }

    private static FileStreamOptions Options(bool isAdded)
    {
        var options = new FileStreamOptions { Mode = isAdded ? FileMode.Append : FileMode.Create, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        return options;
    }
}
