// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"

#include <QFile>
#include <QProcess>

namespace ramplight::test {

namespace {

constexpr int patience = 100'000;

} // namespace

QString programPath()
{
    return qEnvironmentVariable("RAMPLIGHT_PROGRAM", QStringLiteral(RAMPLIGHT_PROGRAM));
}

QProcessEnvironment programEnvironment()
{
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    environment.remove(QStringLiteral("RAMPLIGHT_HOME"));
    environment.insert(QStringLiteral("QT_QPA_PLATFORM"), QStringLiteral("offscreen"));
    environment.insert(QStringLiteral("QT_QUICK_BACKEND"), QStringLiteral("software"));
    return environment;
}

Ran runProgram(const QString& home, const QStringList& arguments, const QByteArray& input)
{
    QProcess process;
    process.setProcessEnvironment(programEnvironment());
    QStringList all;
    if (!home.isEmpty())
        all << QStringLiteral("--home") << home;
    process.start(programPath(), all + arguments);
    process.write(input);
    process.closeWriteChannel();
    Ran ran;
    if (process.waitForFinished(patience) && process.exitStatus() == QProcess::NormalExit)
        ran.code = process.exitCode();
    ran.out = QString::fromUtf8(process.readAllStandardOutput());
    ran.err = QString::fromUtf8(process.readAllStandardError());
    if (process.state() != QProcess::NotRunning) {
        process.kill();
        process.waitForFinished();
    }
    return ran;
}

QString makeDemo(const QString& home, DemoWorkshop which)
{
    QString fault = QStringLiteral("cannot be copied");
    const auto play = [&fault](const QString& folder) {
        const Ran ran = runProgram(folder, {QStringLiteral("demo")});
        const bool told = ran.out.contains(QStringLiteral("Everybody's PIN is 271828."));
        fault = ran.code == 0 && told ? QString() : ran.out + ran.err;
        return fault.isEmpty();
    };
    const QString name = which == DemoWorkshop::One ? QStringLiteral("demo-by-program")
                                                    : QStringLiteral("another-demo-by-program");
    return copyOfShared(name, home, play) ? QString() : fault;
}

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

bool write(const QString& path, const QByteArray& bytes)
{
    QFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size();
}

QString demoAppraisals()
{
    return QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/demo/appraisals/");
}

QString demoCars(const QString& verified)
{
    const QString cars = verified.section(QLatin1Char(','), 0, 0);
    const bool known = cars == QLatin1String("22 cars") || cars == QLatin1String("23 cars") ||
                       cars == QLatin1String("24 cars");
    return known ? cars : QString();
}

} // namespace ramplight::test
