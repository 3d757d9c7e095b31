namespace VatWatch.Science.Heat.Model;

/// <summary>What acts on the vat during a step.</summary>
/// <param name="HeaterW">Power into the liquor, W; 0 or more.</param>
/// <param name="AmbientC">Room, 0 to 60 °C.</param>
/// <param name="RelativeHumidity">0 to 1.</param>
/// <param name="Lid">Cover.</param>
public readonly record struct VatHeatInputs(double HeaterW, double AmbientC, double RelativeHumidity, Lid Lid);
