using VatWatch.Daemon.Web.Security;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Web;

/// <summary>Reads the files of hashes that the configuration's <c>web</c> object names. No fault ever quotes what such a file holds.</summary>
/// <param name="folder">Folder that file names without a full path start from.</param>
internal sealed class WebSecretFiles(ConfigNode node, string folder)
{
    /// <summary>Tokens taken; each is compared at every request of a program.</summary>
    public const int MostTokens = 50;

    private const string WantedHash = "a file that holds one password hash, as `vatwatch password` writes it";
    private const string WantedTokens = "a file with a line NAME ROLE HASH for each program, as `vatwatch password --token NAME` writes it";

    /// <summary>The passwords; null when there is none.</summary>
    public Passwords? Passwords() => (Hash("passwordFile"), Hash("viewerPasswordFile")) switch
    {
        ({ } ofOperators, var ofViewers) => new(ofOperators, ofViewers),
        _ => null,
    };

    /// <summary>The tokens; blank lines and lines that begin with # are left out.</summary>
    public IReadOnlyList<ApiToken> Tokens()
    {
        const string key = "tokenFile";
        if (Content(key, WantedTokens) is not { } content)
        {
            return [];
        }

        var tokens = new List<ApiToken>();
        var number = 0;
        foreach (var line in content.Split('\n').Select(line => line.Trim()))
        {
            number++;
            if (line.Length == 0 || line.StartsWith('#'))
            {
                continue;
            }

            if (!ApiToken.TryParse(line, out var token))
            {
                node.Faults.Add(node.PathOf(key), $"something else in line {number}", WantedTokens);
            }
            else if (tokens.Exists(other => other.Name == token.Name))
            {
                node.Faults.Add(node.PathOf(key), $"the name {ConfigNode.Quote(token.Name)} a second time in line {number}", "each name once");
            }
            else
            {
                tokens.Add(token);
            }
        }

        if (tokens.Count > MostTokens)
        {
            node.Faults.Add(node.PathOf(key), $"{tokens.Count} tokens", $"at most {MostTokens}");
        }

        return tokens;
    }

    private PasswordHash? Hash(string key)
    {
        if (Content(key, WantedHash) is not { } content)
        {
            return null;
        }

        if (PasswordHash.TryParse(content, out var hash))
        {
            return hash;
        }

        node.Faults.Add(node.PathOf(key), $"{node.Shown(key)}, which holds something else", WantedHash);
        return null;
    }

    private string? Content(string key, string wanted)
    {
        if (node.OptionalText(key, wanted) is not { Length: > 0 } file)
        {
            return null;
        }

        var content = SecretFile.TryReadAll(Path.Combine(folder, file), out var fault);
        if (content is null)
        {
            node.Faults.Add(node.PathOf(key), $"{ConfigNode.Quote(file)}, and {fault}", wanted);
        }

        return content;
    }
}
