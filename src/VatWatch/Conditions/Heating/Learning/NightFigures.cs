namespace VatWatch.Conditions.Heating.Learning;

/// <summary>A figure at each of several places: what was usual in earlier nights, and what is counted of tonight's. Not thread safe.</summary>
/// <param name="places">Places, counted from 0.</param>
/// <param name="leastCount">So many counts at a place make the figure of a night.</param>
/// <param name="isLeast">Whether the least of the nights is the usual one, instead of their mean.</param>
internal sealed class NightFigures(int places, int leastCount, bool isLeast)
{
    /// <summary>A night counts for so much beside the earlier ones, whose number is forgotten past this.</summary>
    private const int MostNights = 4;

    private readonly (double Figure, int Nights)[] _usual = new (double, int)[places];
    private readonly (double Sum, int Count)[] _tonight = new (double, int)[places];

    public int Places => places;

    /// <summary>Takes in a figure of tonight.</summary>
    public void Count(int place, double figure) => _tonight[place] = (_tonight[place].Sum + figure, _tonight[place].Count + 1);

    /// <summary>What was usual in earlier nights; null while it is not known.</summary>
    public double? Usual(int place) => _usual[place] is { Nights: > 0 } known ? known.Figure : null;

    /// <summary>Earlier nights that are known of a place.</summary>
    public int Nights(int place) => _usual[place].Nights;

    /// <summary>What was tonight is an earlier night.</summary>
    public void EndNight()
    {
        for (var i = 0; i < places; i++)
        {
            _usual[i] = WithTonight(i);
        }

        Array.Clear(_tonight);
    }

    /// <summary>Takes up what an earlier run kept; nothing is known of a place with no nights.</summary>
    public void Restore(int place, double figure, int nights) => _usual[place] = (figure, Math.Min(nights, MostNights));

    /// <summary>What is usual with tonight as one of the nights; of no nights where nothing is known.</summary>
    public (double Figure, int Nights) WithTonight(int place)
    {
        var (usual, tonight) = (_usual[place], _tonight[place]);
        if (tonight.Count < leastCount)
        {
            return usual;
        }

        var nights = Math.Min(usual.Nights + 1, MostNights);
        var mean = tonight.Sum / tonight.Count;
        return (isLeast && nights > 1 ? Math.Min(usual.Figure, mean) : usual.Figure + (mean - usual.Figure) / nights, nights);
    }
}
