namespace VatWatch.Notifications.Mail;

/// <summary>Draws the last hours of a vat for a message.</summary>
public interface IVatPicture
{
    /// <summary>A PNG in these units; null when there is no such vat.</summary>
    Task<byte[]?> DrawAsync(VatId vat, DisplayUnits units, CancellationToken cancel);
}
