using VatWatch.Science.Indigo;

namespace VatWatch.Science.Dosing;

/// <summary>A reducing agent as the dyer doses it: its electron balance and what the trade uses of it. Immutable; safe on any thread.</summary>
public sealed record ReducerKind
{
    private ReducerKind(string name, ReducingAgent agent, double usualExcess, double usualAssay)
    {
        Name = name;
        Agent = agent;
        UsualExcess = usualExcess;
        UsualAssay = usualAssay;
    }

    /// <summary>Thiourea dioxide; 2.4 times theory is a craft recipe's equal weights of it and pure indigo (trade page).</summary>
    public static ReducerKind ThioureaDioxide { get; } = new("thiourea-dioxide", ReducingAgent.ThioureaDioxide, 2.4, 0.98);

    /// <summary>Sodium dithionite, hydrosulfite; a stock takes 1 to 1.3 times theory (from memory).</summary>
    public static ReducerKind Dithionite { get; } = new("dithionite", ReducingAgent.Dithionite, 1.3, 0.87);

    /// <summary>Fructose with slaked lime, by the trade's 1 : 2 : 3 of indigo, lime and fructose (common practice, no source).</summary>
    public static ReducerKind Fructose { get; } =
        new("fructose", ReducingAgent.Fructose, FructoseGramsPerGramDye / ReducingAgent.Fructose.GramsPerGramIndigo, 1);

    /// <summary>Every kind a dose can be asked for.</summary>
    public static IReadOnlyList<ReducerKind> All { get; } = [ThioureaDioxide, Dithionite, Fructose];

    /// <summary>Fructose by the trade's ratio, grams per gram of indigo as weighed.</summary>
    public const double FructoseGramsPerGramDye = 3;

    /// <summary>Slaked lime by the trade's ratio, grams per gram of indigo as weighed.</summary>
    public const double LimeGramsPerGramDye = 2;

    /// <summary>The word for it in configurations and on command lines.</summary>
    public string Name { get; }

    /// <summary>Its electron balance.</summary>
    public ReducingAgent Agent { get; }

    /// <summary>How many times theory the trade uses.</summary>
    public double UsualExcess { get; }

    /// <summary>Share of agent in what is sold: thiourea dioxide above 0.97, technical dithionite 0.85 to 0.9 (both from memory).</summary>
    public double UsualAssay { get; }

    /// <summary>True for the sugar vat, which is made up by a ratio and stands on lime.</summary>
    public bool IsMadeByRatio => ReferenceEquals(this, Fructose);
}
