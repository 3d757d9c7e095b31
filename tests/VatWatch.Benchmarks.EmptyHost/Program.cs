// The floor that the daemon's memory is measured against: what `dotnet new web` makes, with the collector at its own settings.
// With "nothing" it is the floor of a program's start.
if (args is ["nothing"])
{
    return;
}

var builder = WebApplication.CreateBuilder(args);
var app = builder.Build();
app.MapGet("/", () => "ok");
app.Run();
