using Microsoft.AspNetCore.Http.Metadata;

namespace VatWatch.Daemon.Web;

/// <summary>
/// Marks a handler's parameter as a service. The framework's own mark lies in the MVC assembly, which nothing else here needs in memory (1 MB).
/// </summary>
[AttributeUsage(AttributeTargets.Parameter)]
internal sealed class ServiceAttribute : Attribute, IFromServiceMetadata;
