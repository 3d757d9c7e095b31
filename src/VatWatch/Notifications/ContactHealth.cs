namespace VatWatch.Notifications;

/// <summary>How the way to one contact does.</summary>
/// <param name="Delivered">Sentences taken by the far side.</param>
/// <param name="Failed">Tries that came to nothing.</param>
/// <param name="SetAside">Sentences refused for good.</param>
/// <param name="Trouble">Why the contact cannot be reached, as a clause; null while all is well or it is too early to say.</param>
public sealed record ContactHealth(long Delivered, long Failed, long SetAside, string? Trouble);
