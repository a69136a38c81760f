using System.Data;
using System.Globalization;
using Dapper;
using NodaTime;
using NodaTime.Text;

namespace Scheduler.Service.Storage;

/// <summary>How values travel to and from the database: as text both engines read alike.</summary>
internal static class TypeHandlers
{
    public static void Register()
    {
        DefaultTypeMap.MatchNamesWithUnderscores = true;
        SqlMapper.RemoveTypeMap(typeof(Guid));
        SqlMapper.RemoveTypeMap(typeof(Guid?));
        SqlMapper.RemoveTypeMap(typeof(bool));
        SqlMapper.RemoveTypeMap(typeof(bool?));
        SqlMapper.AddTypeHandler(new TruthHandler());
        SqlMapper.AddTypeHandler(new TextHandler<Guid>(value => value.ToString("N"), Guid.Parse));
        SqlMapper.AddTypeHandler(new TextHandler<LocalDate>(LocalDatePattern.Iso.Format, text => LocalDatePattern.Iso.Parse(text).Value));
        SqlMapper.AddTypeHandler(new TextHandler<Instant>(InstantPattern.ExtendedIso.Format, text => InstantPattern.ExtendedIso.Parse(text).Value));
    }

    private sealed class TruthHandler : SqlMapper.TypeHandler<bool>
    {
        public override void SetValue(IDbDataParameter parameter, bool value)
        {
            parameter.DbType = DbType.Int64;
            parameter.Value = value ? 1L : 0L;
        }

        public override bool Parse(object value) => Convert.ToInt64(value, CultureInfo.InvariantCulture) != 0;
    }

    private sealed class TextHandler<T>(Func<T, string> format, Func<string, T> parse) : SqlMapper.TypeHandler<T> where T : struct
    {
        public override void SetValue(IDbDataParameter parameter, T value)
        {
            parameter.DbType = DbType.String;
            parameter.Value = format(value);
        }

        public override T Parse(object value) => parse((string)value);
    }
}
