// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/shipped.h"

#include <QCoreApplication>
#include <QStringList>
#include <QTest>

#include <chrono>

using namespace ramplight;

namespace {

QStringList& said()
{
    static QStringList lines;
    return lines;
}

void remember(QtMsgType, const QMessageLogContext&, const QString& line)
{
    said().append(line);
}

} // namespace

/// A start reads the catalogue on a thread of its own before there is an application.
class StartOrderTest : public QObject
{
    Q_OBJECT

private slots:
    void catalogueReadFirst_leavesTheMainThreadToTheApplication()
    {
        QCOMPARE(said(), QStringList());
        QCOMPARE(QCoreApplication::instance()->thread(), QThread::currentThread());
    }
};

int main(int argc, char** argv)
{
    // As in main.cpp, with the other thread the quicker one: it has begun and is not through.
    auto reading = shippedCatalogueAside();
    reading.wait_for(std::chrono::milliseconds(2));
    const auto before = qInstallMessageHandler(remember);
    const QCoreApplication application(argc, argv);
    qInstallMessageHandler(before);
    StartOrderTest test;
    return QTest::qExec(&test, argc, argv);
}

#include "tst_startorder.moc"
