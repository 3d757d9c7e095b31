namespace VatWatch.Alarms;

/// <summary>How an alarm came to be shelved or out of service.</summary>
/// <param name="By">Who; null for the daemon itself.</param>
/// <param name="At">When, UTC.</param>
/// <param name="Trusted">Whether UTC was to be believed then.</param>
/// <param name="Because">Why, in words.</param>
/// <param name="Until">When it comes back by itself, UTC; null for one that is out of service.</param>
public sealed record SettingAside(string? By, DateTimeOffset At, bool Trusted, string Because, DateTimeOffset? Until);
