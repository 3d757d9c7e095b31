using System.Text.Json;
using System.Text.Json.Serialization;

namespace VatWatch.Daemon.Verbs.Alarms;

/// <summary>What <c>vatwatch alarms --json</c> writes, serialised by generated code.</summary>
[JsonSourceGenerationOptions(JsonSerializerDefaults.Web, WriteIndented = true)]
[JsonSerializable(typeof(AlarmsDocument))]
internal sealed partial class AlarmJson : JsonSerializerContext;
