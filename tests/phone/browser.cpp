// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "phone/browser.h"

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QStandardPaths>
#include <QTest>

#include <array>
#include <fcntl.h>
#include <poll.h>
#include <unistd.h>

namespace ramplight::test {

namespace {

constexpr int patienceMs = 30'000;
// Where the browser reads and writes (--remote-debugging-pipe).
constexpr int itReads = 3;
constexpr int itWrites = 4;

void fail(const QString& what)
{
    QTest::qFail(qPrintable(what), __FILE__, __LINE__);
}

} // namespace

QString Browser::program()
{
    return QStandardPaths::findExecutable(QStringLiteral("chromium"));
}

Browser::Browser()
{
    std::array<int, 2> to{};
    std::array<int, 2> from{};
    if (pipe2(to.data(), O_CLOEXEC) != 0 || pipe2(from.data(), O_CLOEXEC) != 0) {
        fail(QStringLiteral("no pipes"));
        return;
    }
    // Out of the way of the numbers that the browser wants.
    const int childReads = fcntl(to[0], F_DUPFD_CLOEXEC, 20);
    const int childWrites = fcntl(from[1], F_DUPFD_CLOEXEC, 20);
    m_toBrowser = fcntl(to[1], F_DUPFD_CLOEXEC, 20);
    m_fromBrowser = fcntl(from[0], F_DUPFD_CLOEXEC, 20);
    for (const int end : {to[0], to[1], from[0], from[1]})
        close(end);
    m_process.setChildProcessModifier([childReads, childWrites] {
        dup2(childReads, itReads);
        dup2(childWrites, itWrites);
    });
    m_process.setStandardErrorFile(QProcess::nullDevice());
    m_process.setStandardOutputFile(QProcess::nullDevice());
    m_process.start(program(),
                    {QStringLiteral("--headless"), QStringLiteral("--remote-debugging-pipe"),
                     // As root, where a container runs the tests, it has no sandbox.
                     QStringLiteral("--no-sandbox"), QStringLiteral("--disable-gpu"),
                     QStringLiteral("--disable-dev-shm-usage"), QStringLiteral("--no-first-run"),
                     QStringLiteral("--user-data-dir=") + m_profile.path(),
                     QStringLiteral("about:blank")});
    if (!m_process.waitForStarted(patienceMs))
        fail(QStringLiteral("the browser does not start"));
    close(childReads);
    close(childWrites);
    const QString target = call(QStringLiteral("Target.createTarget"),
                                {{QStringLiteral("url"), QStringLiteral("about:blank")}})
                               .value(QStringLiteral("targetId"))
                               .toString();
    m_session = call(QStringLiteral("Target.attachToTarget"),
                     {{QStringLiteral("targetId"), target}, {QStringLiteral("flatten"), true}})
                    .value(QStringLiteral("sessionId"))
                    .toString();
    for (const char* domain : {"Page.enable", "Log.enable", "Runtime.enable", "DOM.enable"})
        call(QString::fromLatin1(domain));
    call(QStringLiteral("Emulation.setDeviceMetricsOverride"),
         {{QStringLiteral("width"), 390},
          {QStringLiteral("height"), 844},
          {QStringLiteral("deviceScaleFactor"), 2},
          {QStringLiteral("mobile"), true}});
}

Browser::~Browser()
{
    if (m_process.state() != QProcess::NotRunning) {
        m_process.terminate();
        if (!m_process.waitForFinished(patienceMs))
            m_process.kill();
        m_process.waitForFinished(patienceMs);
    }
    close(m_toBrowser);
    close(m_fromBrowser);
}

QJsonObject Browser::next()
{
    for (;;) {
        if (const qsizetype end = m_heard.indexOf('\0'); end >= 0) {
            const QByteArray message = m_heard.left(end);
            m_heard.remove(0, end + 1);
            return QJsonDocument::fromJson(message).object();
        }
        pollfd source{m_fromBrowser, POLLIN, 0};
        std::array<char, 65536> bytes{};
        const ssize_t got =
            poll(&source, 1, patienceMs) > 0 ? read(m_fromBrowser, bytes.data(), bytes.size()) : 0;
        if (got <= 0)
            return {};
        m_heard.append(bytes.data(), got);
    }
}

void Browser::hear(const QJsonObject& message)
{
    const QString method = message.value(QStringLiteral("method")).toString();
    const QJsonObject said = message.value(QStringLiteral("params")).toObject();
    if (method == QLatin1StringView("Page.loadEventFired"))
        m_loaded = true;
    const QJsonObject entry = said.value(QStringLiteral("entry")).toObject();
    const QString source = entry.value(QStringLiteral("source")).toString();
    if (method == QLatin1StringView("Runtime.exceptionThrown"))
        m_complaints.append(QString::fromUtf8(QJsonDocument(said).toJson()));
    // Answers other than 200 are told as "network": they are the test's business.
    else if (method == QLatin1StringView("Log.entryAdded") &&
             source != QLatin1StringView("network"))
        m_complaints.append(entry.value(QStringLiteral("text")).toString());
}

QJsonObject Browser::call(const QString& method, const QJsonObject& parameters)
{
    const int id = ++m_last;
    QJsonObject message{{QStringLiteral("id"), id},
                        {QStringLiteral("method"), method},
                        {QStringLiteral("params"), parameters}};
    if (!m_session.isEmpty())
        message.insert(QStringLiteral("sessionId"), m_session);
    const QByteArray bytes = QJsonDocument(message).toJson(QJsonDocument::Compact) + '\0';
    for (qsizetype at = 0; at < bytes.size();) {
        const ssize_t wrote =
            write(m_toBrowser, bytes.constData() + at, static_cast<std::size_t>(bytes.size() - at));
        if (wrote <= 0) {
            fail(method + QStringLiteral(": the browser is gone"));
            return {};
        }
        at += wrote;
    }
    for (;;) {
        const QJsonObject heard = next();
        if (heard.isEmpty()) {
            fail(method + QStringLiteral(": no answer"));
            return {};
        }
        if (heard.value(QStringLiteral("id")).toInt() != id) {
            hear(heard);
            continue;
        }
        // What was asked about a document that has gone meanwhile is asked again by who waits.
        if (heard.contains(QStringLiteral("error")) &&
            !method.startsWith(QLatin1StringView("DOM.")))
            fail(method + QString::fromUtf8(QJsonDocument(heard).toJson()));
        return heard.value(QStringLiteral("result")).toObject();
    }
}

void Browser::open(const QString& address, bool scripts)
{
    call(QStringLiteral("Emulation.setScriptExecutionDisabled"),
         {{QStringLiteral("value"), !scripts}});
    m_loaded = false;
    call(QStringLiteral("Page.navigate"), {{QStringLiteral("url"), address}});
    while (!m_loaded) {
        const QJsonObject heard = next();
        if (heard.isEmpty()) {
            fail(QStringLiteral("the page does not load"));
            return;
        }
        hear(heard);
    }
}

int Browser::node(const QString& selector)
{
    const int root = call(QStringLiteral("DOM.getDocument"))
                         .value(QStringLiteral("root"))
                         .toObject()
                         .value(QStringLiteral("nodeId"))
                         .toInt();
    return call(QStringLiteral("DOM.querySelector"),
                {{QStringLiteral("nodeId"), root}, {QStringLiteral("selector"), selector}})
        .value(QStringLiteral("nodeId"))
        .toInt();
}

void Browser::choose(const QString& selector, const QStringList& files)
{
    call(QStringLiteral("DOM.setFileInputFiles"),
         {{QStringLiteral("nodeId"), node(selector)},
          {QStringLiteral("files"), QJsonArray::fromStringList(files)}});
}

void Browser::click(const QString& selector)
{
    const QJsonArray corners =
        call(QStringLiteral("DOM.getBoxModel"), {{QStringLiteral("nodeId"), node(selector)}})
            .value(QStringLiteral("model"))
            .toObject()
            .value(QStringLiteral("content"))
            .toArray();
    for (const char* what : {"mousePressed", "mouseReleased"})
        call(QStringLiteral("Input.dispatchMouseEvent"),
             {{QStringLiteral("type"), QLatin1StringView(what)},
              {QStringLiteral("x"), (corners.at(0).toDouble() + corners.at(4).toDouble()) / 2},
              {QStringLiteral("y"), (corners.at(1).toDouble() + corners.at(5).toDouble()) / 2},
              {QStringLiteral("button"), QStringLiteral("left")},
              {QStringLiteral("clickCount"), 1}});
}

QStringList Browser::texts(const QString& selector)
{
    // Out of the document as the browser has it now: works where no script may run, too.
    const int root = call(QStringLiteral("DOM.getDocument"))
                         .value(QStringLiteral("root"))
                         .toObject()
                         .value(QStringLiteral("nodeId"))
                         .toInt();
    const QJsonArray nodes =
        call(QStringLiteral("DOM.querySelectorAll"),
             {{QStringLiteral("nodeId"), root}, {QStringLiteral("selector"), selector}})
            .value(QStringLiteral("nodeIds"))
            .toArray();
    QStringList all;
    for (const auto& each : nodes)
        all.append(call(QStringLiteral("DOM.getOuterHTML"), {{QStringLiteral("nodeId"), each}})
                       .value(QStringLiteral("outerHTML"))
                       .toString());
    return all;
}

bool Browser::untilThere(const QString& selector, int count)
{
    return QTest::qWaitFor([&] { return texts(selector).size() == count; }, patienceMs);
}

void Browser::shoot(const QString& name)
{
    const QString folder = qEnvironmentVariable("RAMPLIGHT_SHOTS");
    if (folder.isEmpty())
        return;
    const QString data =
        call(QStringLiteral("Page.captureScreenshot")).value(QStringLiteral("data")).toString();
    QFile file(QStringLiteral("%1/%2.png").arg(folder, name));
    if (!file.open(QIODevice::WriteOnly) || file.write(QByteArray::fromBase64(data.toLatin1())) < 0)
        fail(file.errorString());
}

} // namespace ramplight::test
