// The floor that the daemon's memory and start are measured against: an ASP.NET Core minimal application that answers one word.
var builder = WebApplication.CreateSlimBuilder(args);
builder.Logging.ClearProviders();
var app = builder.Build();
app.MapGet("/", () => "ok");
app.Run();
