using System.Collections;

namespace VatWatch.Conditions;

/// <summary>Sentences that are written when the first of them is read. Thread safe: two readers at once write the same.</summary>
internal sealed class LateSentences(Func<IReadOnlyList<string>> write) : IReadOnlyList<string>
{
    private IReadOnlyList<string>? _written;

    public int Count => Written.Count;

    public string this[int index] => Written[index];

    private IReadOnlyList<string> Written => _written ??= write();

    public IEnumerator<string> GetEnumerator() => Written.GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
