using System.Collections.Frozen;
using System.Reflection;
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
        Table<T>.Words.TryGetValue(member, out var word) ? word : throw new ArgumentOutOfRangeException(nameof(member), member, $"is not a {typeof(T).Name}");

    /// <summary>Every member by its word, in the order of the enum.</summary>
    public static IReadOnlyDictionary<string, T> All<T>()
        where T : struct, Enum => Table<T>.Members;

    /// <summary>The member of a word; null for any other word.</summary>
    public static T? Find<T>(string? word)
        where T : struct, Enum => word is not null && Table<T>.Members.TryGetValue(word, out var member) ? member : null;

    /// <summary>The member of a word that was written by <see cref="Word"/>.</summary>
    /// <exception cref="FormatException">The word is none of them.</exception>
    public static T Parse<T>(string word)
        where T : struct, Enum => Find<T>(word) ?? throw new FormatException($"\"{word}\" is no {typeof(T).Name}; wanted one of {string.Join(", ", Table<T>.Members.Keys)}");

    private static class Table<T>
        where T : struct, Enum
    {
        public static readonly Dictionary<string, T> Members = Enum.GetValues<T>().ToDictionary(
            member => typeof(T).GetField(member.ToString())!.GetCustomAttribute<JsonStringEnumMemberNameAttribute>()!.Name, StringComparer.Ordinal);

        public static readonly FrozenDictionary<T, string> Words = Members.ToFrozenDictionary(pair => pair.Value, pair => pair.Key);
    }
}
