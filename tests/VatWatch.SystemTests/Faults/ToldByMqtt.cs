using System.Text;

namespace VatWatch.SystemTests.Faults;

/// <summary>A message that left a traced program for its broker, with the step of the trace that brought its last byte out.</summary>
internal sealed record ToldByMqtt(int Place, double Time, string Topic, string Payload)
{
    /// <summary>Every PUBLISH in what the program said to sockets (MQTT 5 §2.1 and §3.3), in order.</summary>
    public static IReadOnlyList<ToldByMqtt> In(DiskTrace trace)
    {
        var streams = new Dictionary<string, List<byte>>();
        var told = new List<ToldByMqtt>();
        for (var place = 0; place < trace.Steps.Count; place++)
        {
            var step = trace.Steps[place];
            if (step.Act != DiskAct.Say || !step.Path.StartsWith("socket:", StringComparison.Ordinal))
            {
                continue;
            }

            var stream = streams.TryGetValue(step.Path, out var known) ? known : streams[step.Path] = [];
            stream.AddRange(step.Bytes);
            while (TakePacket(stream) is { } packet)
            {
                if (Message(packet.Head, packet.Body) is var (topic, payload))
                {
                    told.Add(new(place, step.Time, topic, payload));
                }
            }
        }

        return told;
    }

    private static (byte Head, byte[] Body)? TakePacket(List<byte> stream)
    {
        for (int length = 0, shift = 0, at = 1; at < stream.Count && at < 5; shift += 7, at++)
        {
            length |= (stream[at] & 0x7F) << shift;
            if (stream[at] >= 0x80)
            {
                continue;
            }

            if (stream.Count < at + 1 + length)
            {
                return null;
            }

            var packet = (stream[0], stream.GetRange(at + 1, length).ToArray());
            stream.RemoveRange(0, at + 1 + length);
            return packet;
        }

        return null;
    }

    private static (string Topic, string Payload)? Message(byte head, byte[] body)
    {
        if (head >> 4 != 3)
        {
            return null;
        }

        var topic = body[0] << 8 | body[1];
        var at = 2 + topic + ((head & 0x06) == 0 ? 0 : 2);
        var (properties, shift) = (0, 0);
        do
        {
            properties |= (body[at] & 0x7F) << shift;
            shift += 7;
        }
        while (body[at++] >= 0x80);

        return (Encoding.UTF8.GetString(body, 2, topic), Encoding.UTF8.GetString(body, at + properties, body.Length - at - properties));
    }
}
