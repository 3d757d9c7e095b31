namespace VatWatch.Daemon.Web.Pages;

/// <summary>A form that was refused, to be shown again with what was typed, so that nothing is lost.</summary>
/// <param name="Action">Where it is sent.</param>
/// <param name="Shown">Fields that a person fills in: name, label and what was typed.</param>
/// <param name="Kept">Fields that go along unseen.</param>
/// <param name="File">Name of a file's field, which a browser does not fill in again; null for none.</param>
public sealed record AgainForm(string Action, IReadOnlyList<(string Name, string Label, string Typed)> Shown, IReadOnlyList<(string Name, string Value)> Kept, string? File)
{
    private static readonly Dictionary<string, string> Labels = new(StringComparer.Ordinal)
    {
        ["by"] = "Your name",
        ["amount"] = "How much",
        ["strength"] = "Strength",
        ["yarn"] = "Dry yarn",
        ["shade"] = "Wanted shade",
        ["text"] = "Text",
        ["minutes"] = "Minutes",
        ["ready"] = "Ready at",
        ["at"] = "At what time",
        ["dip-minutes"] = "Minutes in the liquor",
        ["airing-minutes"] = "Minutes out of it",
        ["dips"] = "Dips",
    };

    /// <summary>Fields in which one of several was chosen.</summary>
    private static readonly string[] Choices = ["material", "sign", "reading", "goods", "fibre"];

    /// <summary>What was chosen, in words, so that one sees which form this is.</summary>
    public IEnumerable<string> Chosen => Kept.Where(one => Choices.Contains(one.Name) && one.Value.Length > 0).Select(one => one.Value.Replace('-', ' '));

    /// <summary>The form of a request.</summary>
    /// <param name="form">What was sent.</param>
    /// <param name="tokenField">Name of the token's field, which gets a fresh value.</param>
    public static AgainForm Of(HttpContext context, IFormCollection form, string tokenField)
    {
        var fields = form.Where(field => field.Key != tokenField).Select(field => (Name: field.Key, Value: field.Value.ToString())).ToList();
        if (!form.ContainsKey("by"))
        {
            fields.Add(("by", ""));
        }

        return new(
            context.Request.Path,
            [.. fields.Where(field => Labels.ContainsKey(field.Name)).Select(field => (field.Name, Labels[field.Name], field.Value))],
            [.. fields.Where(field => !Labels.ContainsKey(field.Name))],
            form.Files.Count > 0 ? form.Files[0].Name : null);
    }
}
