namespace VatWatch.Daemon.Web.Api;

/// <summary>Body that begins a session or says something of one. All but the name may be left out; what is left out is not said.</summary>
/// <param name="By">Who, 1 to 60 characters.</param>
/// <param name="YarnGrams">Dry weight of the yarn, g.</param>
/// <param name="Fibre">protein or cellulose; null: as the vat.</param>
/// <param name="Shade">Wanted shade, up to 80 characters.</param>
/// <param name="Verdict">good or poor.</param>
internal sealed record SessionRequest(string? By, double? YarnGrams, string? Fibre, string? Shade, string? Verdict);

/// <summary>Body that ends a session.</summary>
/// <param name="By">Who, 1 to 60 characters.</param>
/// <param name="Verdict">good or poor; null: later.</param>
internal sealed record EndRequest(string? By, string? Verdict);

/// <summary>Body that writes an entry.</summary>
/// <param name="By">Who, 1 to 60 characters.</param>
/// <param name="Kind">dip-in, dip-out, added, stirred, lid-off, lid-on or note.</param>
/// <param name="Material">With added: soda-ash, reducing-agent, stock or water.</param>
/// <param name="Amount">With added: grams of what is weighed, litres of what is poured.</param>
/// <param name="Text">What is written beside it, up to 500 characters.</param>
internal sealed record EntryRequest(string? By, string? Kind, string? Material, double? Amount, string? Text);

/// <summary>Body that withdraws an entry.</summary>
/// <param name="By">Who, 1 to 60 characters.</param>
internal sealed record WithdrawRequest(string? By);
