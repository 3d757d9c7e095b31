namespace VatWatch.Probes;

/// <summary>The bus itself is gone or cannot be opened; every probe on it is without a value until it returns.</summary>
public sealed class BusLostException : Exception
{
    /// <summary>For serializers only.</summary>
    public BusLostException()
    {
    }

    /// <summary>The message is a clause for people: what was seen, what was wanted.</summary>
    public BusLostException(string message)
        : base(message)
    {
    }

    /// <summary>The message is a clause for people: what was seen, what was wanted.</summary>
    public BusLostException(string message, Exception inner)
        : base(message, inner)
    {
    }
}
