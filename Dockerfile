# Build: docker build -t scheduler .   Run: docker run -p 5080:5080 -v scheduler-data:/data scheduler
FROM mcr.microsoft.com/dotnet/sdk:10.0 AS build
WORKDIR /build
COPY global.json Directory.Build.props Directory.Packages.props .editorconfig ./
COPY config config
COPY demo-data demo-data
COPY src src
RUN dotnet publish src/Scheduler.Service -c Release -o /app

# The full image holds ICU, which pages need to write dates and numbers as their reader does; small variants without it would need libicu.
FROM mcr.microsoft.com/dotnet/aspnet:10.0
WORKDIR /app
COPY --from=build /app .
RUN mkdir /data && chown "$APP_UID" /data
USER $APP_UID
VOLUME /data
ENV Storage__Folder=/data \
    Urls=http://0.0.0.0:5080 \
    Accounts__SignUp=invited
EXPOSE 5080
ENTRYPOINT ["dotnet", "Scheduler.Service.dll"]
