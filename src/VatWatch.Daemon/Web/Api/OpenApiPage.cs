using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Web.Api;

/// <summary>
/// The description of the HTTP interface at <c>/api/openapi.json</c>. It is made when it is first asked for, by an application of its own that
/// never listens, so that a daemon nobody asks carries none of what it takes (OpenAPI, API explorer, MVC). Thread safe.
/// </summary>
internal sealed class OpenApiPage
{
    private const string Name = "v1";
    private readonly Lazy<Task<byte[]>> _document = new(MakeAsync);

    /// <summary>The whole document.</summary>
    public async Task<IResult> AnswerAsync() => TypedResults.Bytes(await _document.Value, "application/json");

    private static async Task<byte[]> MakeAsync()
    {
        var builder = WebApplication.CreateEmptyBuilder(new());
        builder.WebHost.UseKestrelCore();
        builder.Services.AddRoutingCore().AddLogging().ConfigureHttpJsonOptions(UseOurShapes);
        builder.Services.AddOpenApi(Name, options => options.AddDocumentTransformer((openApi, _, _) =>
        {
            openApi.Info.Title = "VatWatch";
            openApi.Info.Description = "Live state of heated indigo vats. It is not a safety device.";
            openApi.Servers?.Clear();
            DescribeAccess(openApi);
            return Task.CompletedTask;
        }));
        await using var described = builder.Build();
        VatWatchWeb.MapInterface(described);
        ((IApplicationBuilder)described).UseRouting().UseEndpoints(_ => { });
        var document = await described.Services.GetRequiredKeyedService<IOpenApiDocumentProvider>(Name).GetOpenApiDocumentAsync();
        using var text = new MemoryStream();
        await document.SerializeAsJsonAsync(text, OpenApiSpecVersion.OpenApi3_1);
        return text.ToArray();
    }

    /// <summary>Any one of the three ways in; on loopback without a password none is asked for.</summary>
    private static void DescribeAccess(OpenApiDocument openApi)
    {
        openApi.Components ??= new();
        openApi.Components.SecuritySchemes = new Dictionary<string, IOpenApiSecurityScheme>
        {
            ["token"] = new OpenApiSecurityScheme { Type = SecuritySchemeType.Http, Scheme = "bearer", Description = "A line of web.tokenFile; `vatwatch password --token NAME` makes one. A viewer's token may read, an operator's may change." },
            ["password"] = new OpenApiSecurityScheme { Type = SecuritySchemeType.Http, Scheme = "basic", Description = "Any user name with the operators' or the viewers' password." },
            ["session"] = new OpenApiSecurityScheme { Type = SecuritySchemeType.ApiKey, In = ParameterLocation.Cookie, Name = PasswordGate.Scheme, Description = "The session of a signed-in browser." },
        };
        openApi.Security = [.. openApi.Components.SecuritySchemes.Keys.Select(name => new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference(name, openApi)] = [] })];
    }

    /// <summary>The generated JSON code, for the real application and the described one.</summary>
    public static void UseOurShapes(Microsoft.AspNetCore.Http.Json.JsonOptions json) =>
        json.SerializerOptions.TypeInfoResolverChain.Insert(0, ApiJson.Default);
}
