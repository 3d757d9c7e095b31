using System.Collections;
using System.Reflection;
using System.Runtime.CompilerServices;
using System.Text.Json.Serialization;

namespace VatWatch.Vats;

/// <summary>
/// The words by which configuration, topics, addresses and stored rows call the members of an enum: each member carries its own in
/// <see cref="JsonStringEnumMemberNameAttribute"/>, so that JSON and everything else say the same. Thread safe.
/// </summary>
public static class EnumWord
{
    /// <summary>The word of a member, for example "returned-unacknowledged".</summary>
    public static string Word<T>(this T member)
        where T : struct, Enum =>
        Table<T>.All.WordOf(member) ?? throw new ArgumentOutOfRangeException(nameof(member), member, $"is not a {typeof(T).Name}");

    /// <summary>Every member by its word, in the order of the enum.</summary>
    public static IReadOnlyDictionary<string, T> All<T>()
        where T : struct, Enum => Table<T>.All;

    /// <summary>The member of a word; null for any other word.</summary>
    public static T? Find<T>(string? word)
        where T : struct, Enum => word is not null && Table<T>.All.TryGetValue(word, out var member) ? member : null;

    /// <summary>The member of a word that was written by <see cref="Word"/>.</summary>
    /// <exception cref="FormatException">The word is none of them.</exception>
    public static T Parse<T>(string word)
        where T : struct, Enum => Find<T>(word) ?? throw new FormatException($"\"{word}\" is no {typeof(T).Name}; wanted one of {string.Join(", ", Table<T>.All.Keys)}");

    /// <summary>
    /// Members and words side by side, in the order of the enum. The framework's dictionaries of an enum are compiled anew at every start of the daemon,
    /// since no compilation ahead can hold another library's code for a type of ours; this one is compiled ahead, and a handful is quickly looked through.
    /// </summary>
    private sealed class Table<T> : IReadOnlyDictionary<string, T>
        where T : struct, Enum
    {
        private readonly T[] _members = Enum.GetValues<T>();
        private readonly string[] _words;

        private Table() => _words = [.. typeof(T).GetEnumNames().Select(name => typeof(T).GetField(name)!.GetCustomAttribute<JsonStringEnumMemberNameAttribute>()!.Name)];

        public static Table<T> All { get; } = new();

        public IEnumerable<string> Keys => _words;

        public IEnumerable<T> Values => _members;

        public int Count => _words.Length;

        public T this[string word] => TryGetValue(word, out var member) ? member : throw new KeyNotFoundException($"\"{word}\" is no {typeof(T).Name}");

        public bool ContainsKey(string word) => TryGetValue(word, out _);

        public string? WordOf(T member)
        {
            var at = _members.Length - 1;
            while (at >= 0 && Number(_members[at]) != Number(member))
            {
                at--;
            }

            return at < 0 ? null : _words[at];
        }

        public bool TryGetValue(string word, out T member)
        {
            var at = Array.IndexOf(_words, word);
            member = at < 0 ? default : _members[at];
            return at >= 0;
        }

        public IEnumerator<KeyValuePair<string, T>> GetEnumerator()
        {
            for (var at = 0; at < _words.Length; at++)
            {
                yield return new(_words[at], _members[at]);
            }
        }

        IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

        private static int Number(T member) => Unsafe.BitCast<T, int>(member);
    }
}
