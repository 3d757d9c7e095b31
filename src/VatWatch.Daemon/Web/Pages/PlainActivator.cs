using Microsoft.AspNetCore.Components;

namespace VatWatch.Daemon.Web.Pages;

/// <summary>
/// Makes components by their empty constructor; all of ours have no other. The framework's own way compiles an expression for each, which costs
/// memory for as long as the daemon runs.
/// </summary>
internal sealed class PlainActivator : IComponentActivator
{
    public IComponent CreateInstance(Type componentType) => (IComponent)Activator.CreateInstance(componentType)!;
}
