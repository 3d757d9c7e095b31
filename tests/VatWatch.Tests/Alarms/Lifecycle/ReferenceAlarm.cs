namespace VatWatch.Tests.Alarms.Lifecycle;

/// <summary>
/// The alarm of <see cref="LifecycleScript.Settings"/> written another way, as the yardstick of the property test: a log of signals that is
/// replayed from its beginning each time for the delays, and the published table of states A to I as a list of rows.
/// </summary>
internal sealed class ReferenceAlarm(bool latch)
{
    private static readonly Dictionary<(char State, string Event), char> Table = new()
    {
        [('A', "stands")] = 'B',
        [('B', "ack")] = 'C',
        [('C', "again")] = 'B',
        [('D', "ack")] = 'A',
        [('D', "stands")] = 'B',
        [('E', "ack")] = 'F',
        [('E', "stands")] = 'B',
        [('F', "stands")] = 'B',
        [('F', "reset")] = 'A',
        [('B', "again")] = 'B',
        [('C', "lower")] = 'C',
    };

    private readonly List<(int Second, string Signal)> _log = [];
    private char _state = 'A';
    private string _priority = "high";
    private bool _wasWorse;
    private bool _suppressed;
    private int? _told;
    private int? _falls;
    private int _seen;
    private int _shelfEnds;

    public string State => _state switch
    {
        'A' => "normal",
        'B' => "unacknowledged",
        'C' => "acknowledged",
        'D' => "returned-unacknowledged",
        'E' or 'F' => "latched",
        'G' => "shelved",
        'H' => "suppressed",
        _ => "out-of-service",
    };

    public bool Give(string input, int second)
    {
        switch (input)
        {
            case "ack" or "reset":
                _seen = input == "ack" && Table.ContainsKey((_state, input)) ? second : _seen;
                return Move(input, second);
            case "shelve" when _state is not ('G' or 'H' or 'I'):
                (_state, _shelfEnds) = ('G', second + 600);
                return false;
            case "remove":
                _state = 'I';
                return false;
            case "unshelve" when _state == 'G':
            case "return" when _state == 'I':
                return Back(second);
            case "shelve" or "unshelve" or "return":
                return false;
            default:
                return See(input, second);
        }
    }

    private bool See(string input, int second)
    {
        _suppressed = input.EndsWith("off", StringComparison.Ordinal);
        var signal = input switch { "clear" or "off" => "clear", "unknown" => "unknown", _ => "met" };
        _log.Add((second, signal == "clear" && _state == 'H' ? "dropped" : signal));
        var stands = Stands();
        var priority = Priority(input == "critical", stands, second);
        var told = Tell(stands, input == "worse" && !_wasWorse, priority, second);
        _priority = priority;
        _wasWorse = stands && (_wasWorse || input == "worse");
        return told;
    }

    private string Priority(bool isCritical, bool stands, int second)
    {
        if (isCritical || !stands || _priority == "high")
        {
            _falls = null;
            return isCritical ? "critical" : "high";
        }

        _falls ??= second;
        return second - _falls >= 20 ? "high" : "critical";
    }

    private bool Tell(bool stands, bool worse, string priority, int second)
    {
        if (_state is 'G' or 'H' or 'I')
        {
            var isOver = (_state == 'G' && second >= _shelfEnds) || (_state == 'H' && !_suppressed);
            return isOver && Back(second);
        }

        if (_suppressed)
        {
            _state = 'H';
            return false;
        }

        if (!stands)
        {
            var before = _state;
            _state = (_state, latch) switch { ('B', true) => 'E', ('B', false) => 'D', ('C', true) => 'F', ('C', false) => 'A', _ => _state };
            return before != _state;
        }

        var again = _state == 'B'
            ? worse || priority != _priority || second - _told >= 300
            : worse || (priority == "critical" && _priority == "high") || second - _seen >= 900;
        var what = _state is not ('B' or 'C') ? "stands" : again ? "again" : priority != _priority ? "lower" : "no news";
        return Move(what, second);
    }

    private bool Back(int second)
    {
        var isQuiet = _state == 'H' && _told is { } told && second - told < 300;
        _state = _suppressed ? 'H' : Stands() ? 'B' : 'A';
        _told = _state == 'B' && !isQuiet ? second : _told;
        return _state == 'B' && !isQuiet;
    }

    private bool Move(string what, int second)
    {
        if (!Table.TryGetValue((_state, what), out var next))
        {
            return false;
        }

        _state = next;
        _told = next == 'B' ? second : _told;
        return what is "stands" or "again" or "lower";
    }

    /// <summary>
    /// Second by second through the whole log: the on-delay's time grows by two half-seconds and shrinks by one. A minute of one signal fills or
    /// empties everything, so no gap is walked for longer.
    /// </summary>
    private bool Stands()
    {
        var stands = false;
        int met = 0, clear = 0, at = 0;
        var held = "unknown";
        foreach (var (second, signal) in _log)
        {
            for (at = Math.Max(at, second - 60); at < second; at++)
            {
                met = held == "met" ? Math.Min(met + 2, 40) : held == "clear" && !stands ? Math.Max(met - 1, 0) : met;
                clear += held == "clear" ? 1 : 0;
            }

            held = signal == "dropped" ? "clear" : signal;
            clear = signal == "met" ? 0 : clear;
            if (signal == "met" && met >= 20)
            {
                stands = true;
            }
            else if (signal == "dropped" || (signal == "clear" && stands && clear >= 20))
            {
                (stands, met) = (false, 0);
            }
        }

        return stands;
    }
}
