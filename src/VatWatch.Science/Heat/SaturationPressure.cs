namespace VatWatch.Science.Heat;

/// <summary>Vapour pressure of water and boiling temperature: IAPWS-IF97, region 4.</summary>
public static class SaturationPressure
{
    private const double LowestC = 0;
    private const double CriticalK = 647.096;
    private const double LowestPa = 611.213;
    private const double CriticalPa = 22.064e6;

    // IAPWS R7-97(2012), table 34.
    private const double N1 = 0.11670521452767e4;
    private const double N2 = -0.72421316703206e6;
    private const double N3 = -0.17073846940092e2;
    private const double N4 = 0.12020824702470e5;
    private const double N5 = -0.32325550322333e7;
    private const double N6 = 0.14915108613530e2;
    private const double N7 = -0.48232657361591e4;
    private const double N8 = 0.40511340542057e6;
    private const double N9 = -0.23855557567849;
    private const double N10 = 0.65017534844798e3;

    /// <summary>Vapour pressure in Pa over liquid water, 0 °C to the critical point (373.946 °C).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range, or NaN.</exception>
    public static double Pa(double temperatureC)
    {
        var kelvin = Wanted.Within(temperatureC, LowestC, CriticalK - 273.15, "°C") + 273.15;
        var theta = kelvin + N9 / (kelvin - N10);
        var a = (theta + N1) * theta + N2;
        var b = (N3 * theta + N4) * theta + N5;
        var c = (N6 * theta + N7) * theta + N8;
        return 1e6 * Math.Pow(2 * c / (-b + Math.Sqrt(b * b - 4 * a * c)), 4);
    }

    /// <summary>Temperature in °C at which water boils at a height above the sea, m, −500 to 9000: pressure of the standard atmosphere (ISO 2533).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range, or NaN.</exception>
    public static double BoilingAtAltitudeC(double metres) =>
        BoilingC(101_325 * Math.Pow(1 - 2.25577e-5 * Wanted.Within(metres, -500, 9000, "m"), 5.25588));

    /// <summary>Temperature in °C at which water boils under a pressure of 611.213 Pa to 22.064 MPa.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range, or NaN.</exception>
    public static double BoilingC(double pressurePa)
    {
        var beta = Math.Pow(Wanted.Within(pressurePa, LowestPa, CriticalPa, "Pa") * 1e-6, 0.25);
        var e = (beta + N3) * beta + N6;
        var f = (N1 * beta + N4) * beta + N7;
        var g = (N2 * beta + N5) * beta + N8;
        var d = 2 * g / (-f - Math.Sqrt(f * f - 4 * e * g));
        return 0.5 * (N10 + d - Math.Sqrt((N10 + d) * (N10 + d) - 4 * (N9 + N10 * d))) - 273.15;
    }
}
