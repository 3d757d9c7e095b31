using VatWatch.Vats.Configuration;

namespace VatWatch.Notifications.Webhook;

/// <summary>Where a webhook goes, and the secret it is signed with; keys of a contact whose way is <c>webhook</c>.</summary>
/// <param name="Url">An http or https address without a user in it.</param>
/// <param name="SecretFile">File whose first line is the secret of the signature; null for none.</param>
public sealed record WebhookOptions(Uri Url, string? SecretFile)
{
    private const string WantedUrl = "an address such as \"https://hooks.example/vats\"";

    /// <summary>Reads <c>url</c> and <c>secretFile</c>; faults are filed on the node.</summary>
    public static WebhookOptions Read(ConfigNode node)
    {
        var text = node.Text("url", WantedUrl);
        var secret = Vats.Configuration.SecretFile.Read(node, "secretFile", "the name of a file whose first line is the secret of the signature");
        if (Uri.TryCreate(text, UriKind.Absolute, out var url) && url.Scheme is "http" or "https" && url.UserInfo.Length == 0 && url.Fragment.Length == 0)
        {
            return new(url, secret);
        }

        if (text.Length > 0)
        {
            // An address may carry a key of its own in its query, so it is not repeated when it is wrong.
            node.Faults.Add(node.PathOf("url"), "something else", $"{WantedUrl}: http or https, without user, password or #");
        }

        return new(new("http://localhost/"), secret);
    }
}
