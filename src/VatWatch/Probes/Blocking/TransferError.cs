using System.Text.RegularExpressions;

namespace VatWatch.Probes.Blocking;

/// <summary>Reads the error number of Linux out of the sentence in which System.Device puts it ("Error 121 performing I2C data transfer.").</summary>
internal static partial class TransferError
{
    // Numbers of errno.h on Linux.
    private const int NoSuchDeviceOrAddress = 6;
    private const int BadDescriptor = 9;
    private const int NoSuchDevice = 19;
    private const int TimedOut = 110;
    private const int RemoteInputOutput = 121;

    /// <summary>The device node itself went away, such as a USB adapter that was pulled out.</summary>
    public static bool IsGone(IOException error) => Number(error) is BadDescriptor or NoSuchDevice;

    /// <summary>Worth an immediate second attempt: not after a kernel timeout, which already took its time.</summary>
    public static bool MayRepeat(IOException error) => !IsGone(error) && Number(error) is not TimedOut;

    /// <summary>What was seen, as a clause.</summary>
    public static string Seen(IOException error) => Number(error) switch
    {
        NoSuchDeviceOrAddress or RemoteInputOutput => "no acknowledge",
        TimedOut => "the bus is held: the transfer timed out",
        { } number => $"error {number}",
        _ => error.Message.TrimEnd('.'),
    };

    private static int? Number(IOException error) =>
        ErrorNumber().Match(error.Message) is { Success: true } match ? int.Parse(match.Groups["number"].Value) : null;

    [GeneratedRegex(@"\bError (?<number>\d{1,5})\b", RegexOptions.CultureInvariant)]
    private static partial Regex ErrorNumber();
}
