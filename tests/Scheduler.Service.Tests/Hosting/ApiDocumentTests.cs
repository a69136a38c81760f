using Scheduler.Service.Tests.Support;

namespace Scheduler.Service.Tests.Hosting;

public sealed class ApiDocumentTests
{
    [Fact]
    public async Task ApiDocument_DescribesBodiesAnswersAndPaging()
    {
        using var service = new ServiceFactory();
        using var anonymous = service.Anonymous();
        var document = await anonymous.JsonAsync("/openapi/v1.json");
        var paths = document.GetProperty("paths");
        var add = paths.GetProperty("/api/v1/gardens/{id}/trees").GetProperty("post");
        Assert.EndsWith("TreeRequest", add.GetProperty("requestBody").GetProperty("content").GetProperty("application/json").GetProperty("schema").GetProperty("$ref").GetString(), StringComparison.Ordinal);
        Assert.EndsWith("TreeAnswer", add.GetProperty("responses").GetProperty("201").GetProperty("content").GetProperty("application/json").GetProperty("schema").GetProperty("$ref").GetString(), StringComparison.Ordinal);
        Assert.True(add.GetProperty("responses").TryGetProperty("400", out _));
        var list = paths.GetProperty("/api/v1/gardens").GetProperty("get").GetProperty("parameters").EnumerateArray().Select(parameter => parameter.GetProperty("name").GetString());
        Assert.Equal(["limit", "after"], list);
        var schemas = document.GetProperty("components").GetProperty("schemas");
        Assert.Equal("date-time", schemas.GetProperty("Instant").GetProperty("format").GetString());
        Assert.Equal("date", schemas.GetProperty("LocalDate").GetProperty("format").GetString());
        Assert.Contains("Idempotency-Key", add.GetProperty("parameters").GetRawText(), StringComparison.Ordinal);
        Assert.Contains("branch-building", document.GetRawText(), StringComparison.Ordinal);
        foreach (var path in paths.EnumerateObject().Where(path => path.Name.StartsWith("/api/v1/", StringComparison.Ordinal)))
            Assert.All(path.Value.EnumerateObject(), operation => Assert.False(string.IsNullOrEmpty(operation.Value.GetProperty("summary").GetString()), path.Name));
    }
}
