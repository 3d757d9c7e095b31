using System.Device.Gpio;

namespace VatWatch.Testing.Registers;

/// <summary>
/// A chip of GPIO lines behind the library's own controller. A line is high or low as a contact and the resistor that is switched on make it;
/// one that neither holds is found low and high in turn.
/// </summary>
public sealed class FakeGpioLines : GpioDriver
{
    private readonly Dictionary<int, PinMode> _modes = [];
    private bool _floating;

    /// <summary>Lines that a contact joins to ground (false) or to the supply (true).</summary>
    public Dictionary<int, bool> Closed { get; } = [];

    /// <summary>What the next looks find, whatever the contacts.</summary>
    public Queue<bool> Looks { get; } = new();

    /// <summary>Lines that another program has.</summary>
    public HashSet<int> Taken { get; } = [];

    /// <summary>How the open lines were set up.</summary>
    public IReadOnlyDictionary<int, PinMode> Modes => _modes;

    protected override int PinCount => 54;

    protected override void OpenPin(int pinNumber)
    {
        if (Taken.Contains(pinNumber))
        {
            throw new IOException("Error 16 while opening the line.");
        }

        _modes[pinNumber] = PinMode.Input;
    }

    protected override void ClosePin(int pinNumber) => _modes.Remove(pinNumber);

    protected override void SetPinMode(int pinNumber, PinMode mode) => _modes[pinNumber] = mode;

    protected override PinMode GetPinMode(int pinNumber) => _modes[pinNumber];

    protected override bool IsPinModeSupported(int pinNumber, PinMode mode) => mode != PinMode.Output;

    protected override PinValue Read(int pinNumber)
    {
        if (Looks.TryDequeue(out var found))
        {
            return found ? PinValue.High : PinValue.Low;
        }

        if (Closed.TryGetValue(pinNumber, out var high))
        {
            return high ? PinValue.High : PinValue.Low;
        }

        return _modes[pinNumber] switch
        {
            PinMode.InputPullUp => PinValue.High,
            PinMode.InputPullDown => PinValue.Low,
            _ => (_floating = !_floating) ? PinValue.High : PinValue.Low,
        };
    }

    protected override void Write(int pinNumber, PinValue value) => throw new NotSupportedException("Nothing here is switched.");

    protected override WaitForEventResult WaitForEvent(int pinNumber, PinEventTypes eventTypes, CancellationToken cancellationToken) => throw new NotSupportedException();

    protected override void AddCallbackForPinValueChangedEvent(int pinNumber, PinEventTypes eventTypes, PinChangeEventHandler callback) => throw new NotSupportedException();

    protected override void RemoveCallbackForPinValueChangedEvent(int pinNumber, PinChangeEventHandler callback) => throw new NotSupportedException();
}
