using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Mvc;
using VatWatch.Alarms.Journal;
using VatWatch.Conditions;

namespace VatWatch.Daemon.Web.Api;

/// <summary>Every JSON shape of the HTTP interface, serialised by generated code.</summary>
[JsonSourceGenerationOptions(JsonSerializerDefaults.Web, DefaultIgnoreCondition = JsonIgnoreCondition.Never)]
[JsonSerializable(typeof(VatReply))]
[JsonSerializable(typeof(IReadOnlyList<VatReply>))]
[JsonSerializable(typeof(MeasurementReply))]
[JsonSerializable(typeof(ConditionDocument))]
[JsonSerializable(typeof(AlarmDocument))]
[JsonSerializable(typeof(Plans.HeatingAnswer))]
[JsonSerializable(typeof(IReadOnlyList<AlarmDocument>))]
[JsonSerializable(typeof(AlarmActRequest))]
[JsonSerializable(typeof(AlarmActReply))]
[JsonSerializable(typeof(IReadOnlyList<AlarmWeekReply>))]
[JsonSerializable(typeof(ContactReply))]
[JsonSerializable(typeof(SessionReply))]
[JsonSerializable(typeof(IReadOnlyList<SessionReply>))]
[JsonSerializable(typeof(EntryReply))]
[JsonSerializable(typeof(IReadOnlyList<EntryReply>))]
[JsonSerializable(typeof(SessionRequest))]
[JsonSerializable(typeof(EndRequest))]
[JsonSerializable(typeof(EntryRequest))]
[JsonSerializable(typeof(WithdrawRequest))]
[JsonSerializable(typeof(JoinRequest))]
[JsonSerializable(typeof(DipOutlookReply))]
[JsonSerializable(typeof(SessionChangeReply))]
[JsonSerializable(typeof(byte[]))]
[JsonSerializable(typeof(LaggedReply))]
[JsonSerializable(typeof(Drawing.ChartReply))]
[JsonSerializable(typeof(Health.ReadyReply))]
[JsonSerializable(typeof(ProblemDetails))]
internal sealed partial class ApiJson : JsonSerializerContext;
