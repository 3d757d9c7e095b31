using VatWatch.Sessions;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Report;

/// <summary>Names the sessions of a vat to somebody who asked for one that is not there.</summary>
internal static class KnownSessions
{
    private const int Told = 10;

    /// <summary>For example "wanted one of '2026-03-10', '2026-03-03'", as a clause.</summary>
    public static string Of(StoreReader reader, VatDefinition vat)
    {
        var newest = SessionTable.Newest(reader, vat.Id, Told);
        return newest.Count == 0
            ? $"the log book of vat '{vat.Id}' holds no session"
            : $"wanted one of {string.Join(", ", newest.Select(session => $"'{session.Id}'"))}";
    }
}
