namespace VatWatch.Science.Dosing;

/// <summary>Minutes to wait after a portion before measuring again.</summary>
/// <param name="LeastMinutes">The least.</param>
/// <param name="MostMinutes">The most that is of use.</param>
/// <param name="Minutes">What to set the clock to.</param>
public readonly record struct DoseWait(int LeastMinutes, int MostMinutes, int Minutes)
{
    /// <summary>Soda ash: until it is mixed in. Common practice, no source.</summary>
    public static DoseWait ForAlkali => new(10, 15, 15);

    /// <summary>Reducing agent: pauses of 20 and 30 min in Mairet (A Book on Vegetable Dyes, 1916), up to 40 min in craft practice.</summary>
    public static DoseWait ForReducer => new(20, 40, 30);
}
