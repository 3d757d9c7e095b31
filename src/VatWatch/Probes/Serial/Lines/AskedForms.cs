using System.Text;

namespace VatWatch.Probes.Serial.Lines;

/// <summary>A question and how its answer is known.</summary>
/// <param name="Question">What is asked.</param>
/// <param name="Pattern">The form of its answer.</param>
internal sealed record AskedForm(string Question, LinePattern Pattern)
{
    /// <summary>Numbers as instruments send them bare.</summary>
    private static readonly string[] Bare = ["45.20", "9.810", "-655.0", "45", "+45.2"];

    /// <summary>Lines that this pattern or a careless one would take.</summary>
    private IEnumerable<string> Examples => Pattern.Example is { } own ? [.. Bare, own] : Bare;

    /// <summary>A line that would be taken as the answer to either question; null when none was found, or when both ask the same.</summary>
    public string? AlsoTakenBy(AskedForm other) => Question == other.Question
        ? null
        : Examples.Concat(other.Examples).FirstOrDefault(line => Knows(line) && other.Knows(line));

    private bool Knows(string line) => Pattern.Knows(Encoding.ASCII.GetBytes(line));
}

/// <summary>The questions that are put on one port.</summary>
internal sealed class AskedForms
{
    private readonly List<AskedForm> _forms = [];

    /// <summary>Whether answers to different questions cannot be told apart.</summary>
    public bool LookAlike { get; private set; }

    /// <summary>Whether every answer shows by what stands around its number which question it belongs to.</summary>
    public bool AreDistinct { get; private set; } = true;

    public void Add(AskedForm form)
    {
        var isAlike = _forms.Exists(other => other.AlsoTakenBy(form) is not null);
        AreDistinct &= form.Pattern.Example is not null && !isAlike;
        LookAlike |= isAlike;
        _forms.Add(form);
    }
}
