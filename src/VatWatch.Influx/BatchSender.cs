namespace VatWatch.Influx;

/// <summary>
/// Sends a batch until the server has every good point of it. A batch that is too large is halved. One that is refused for its points is
/// halved again and again until the bad ones are found. Nothing is kept between batches but the size the server bears; not thread safe.
/// </summary>
internal sealed class BatchSender(IInfluxLink link)
{
    /// <summary>Points that are found bad one after the other before it is asked whether any is good.</summary>
    internal const int Doubtful = 32;

    private string? _good;

    /// <summary>Sends <paramref name="lines"/>, at most <see cref="Most"/> in one request.</summary>
    public async Task<BatchResult> SendAsync(IReadOnlyList<string> lines, CancellationToken cancel)
    {
        var parts = new Stack<(int Start, int Count)>(Parts(lines.Count).Reverse());
        var (accepted, refused) = (0, new List<(string Line, string Reason)>());
        while (parts.TryPop(out var part))
        {
            var reply = await link.WriteAsync(Slice(lines, part), cancel);
            switch (reply.Kind)
            {
                case WriteReplyKind.Accepted:
                    accepted += part.Count;
                    _good = lines[part.Start];
                    break;
                case WriteReplyKind.TooLarge or WriteReplyKind.BadPoints when part.Count > 1:
                    Halve(parts, part, reply.Kind);
                    break;
                case WriteReplyKind.TooLarge or WriteReplyKind.BadPoints:
                    refused.Add((lines[part.Start], reply.Reason));
                    var isTime = accepted == 0 && reply.Malformed && (refused.Count == Doubtful || parts.Count == 0);
                    if (isTime && await AllRefusedAsync(lines, cancel) is { } refusal)
                    {
                        return new(0, [], refusal);
                    }

                    break;
                default:
                    // Those refused so far are found again: the batch is not done with.
                    return new(accepted, [], reply);
            }
        }

        return new(accepted, refused, null);
    }

    /// <summary>Points in one request that the server bears, as far as it is known.</summary>
    public int Most { get; private set; } = int.MaxValue;

    /// <summary>
    /// A server that understands no point at all is no server for these points, and they wait. Asked by a point that it took before, which writes
    /// nothing new; where there is none, by the last of the batch and the one in the middle.
    /// </summary>
    private async Task<WriteReply?> AllRefusedAsync(IReadOnlyList<string> lines, CancellationToken cancel)
    {
        foreach (var line in _good is { } known ? [known] : new[] { lines[^1], lines[lines.Count / 2] })
        {
            var reply = await link.WriteAsync([line], cancel);
            if (reply.Kind is WriteReplyKind.Away or WriteReplyKind.Refused)
            {
                return reply;
            }

            if (!reply.Malformed)
            {
                return null;
            }
        }

        return new(WriteReplyKind.Refused, "it refuses every point as malformed (400); wanted a server that takes the writes of InfluxDB 2");
    }

    private IEnumerable<(int Start, int Count)> Parts(int count)
    {
        for (var start = 0; start < count; start += Math.Min(Most, count - start))
        {
            yield return (start, Math.Min(Most, count - start));
        }
    }

    private void Halve(Stack<(int Start, int Count)> parts, (int Start, int Count) part, WriteReplyKind kind)
    {
        var half = part.Count / 2;
        parts.Push((part.Start + half, part.Count - half));
        parts.Push((part.Start, half));
        if (kind == WriteReplyKind.TooLarge)
        {
            Most = Math.Min(Most, part.Count - half);
        }
    }

    private static IReadOnlyList<string> Slice(IReadOnlyList<string> lines, (int Start, int Count) part) =>
        part.Count == lines.Count ? lines : [.. lines.Skip(part.Start).Take(part.Count)];
}

/// <summary>What came of a batch.</summary>
/// <param name="Accepted">Points the server has taken.</param>
/// <param name="Refused">Points it will never take, each with its reason.</param>
/// <param name="Stopped">Why the batch is not done with and has to be sent again; null when it is.</param>
internal sealed record BatchResult(int Accepted, IReadOnlyList<(string Line, string Reason)> Refused, WriteReply? Stopped);
