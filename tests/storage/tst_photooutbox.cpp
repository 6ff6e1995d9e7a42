// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../evidence/samples.h"
#include "storagebench.h"

#include "evidence/photokeeper.h"
#include "storage/photooutbox.h"
#include "support/testmain.h"

#include <QDateTime>
#include <QFile>

using namespace ramplight;
using namespace ramplight::test;

// Photos that a kiosk kept for its server, on their way there. The server is a file.
class TestPhotoOutbox : public QObject
{
    Q_OBJECT

private slots:
    void photoKeptUnderAClockThatWasAhead_isSentOnce_data()
    {
        QTest::addColumn<int>("daysAhead");
        QTest::newRow("right clock") << 0;
        QTest::newRow("a day ahead") << 1;
        QTest::newRow("ten years ahead") << 3650;
    }

    void photoKeptUnderAClockThatWasAhead_isSentOnce()
    {
        QFETCH(int, daysAhead);
        const TestDatabase server(StoreKind::Sqlite);
        const SiteId site = server.open()->ledger().siteId();
        const QTemporaryDir folder;
        const auto kept = PhotoKeeper(std::make_unique<FolderShelf>(folder.path()))
                              .keep(samples::panel({80, 60}, 1));
        QVERIFY(kept);
        QFile file(FolderShelf(folder.path()).pathOf(kept->id, PhotoForm::Full));
        QVERIFY(file.open(QIODevice::ReadWrite));
        QVERIFY(file.setFileTime(QDateTime::currentDateTimeUtc().addDays(daysAhead),
                                 QFileDevice::FileModificationTime));
        file.close();

        PhotoOutbox outbox(folder.path());
        const auto connection = Connection::open(server.settings());
        QVERIFY(connection);
        QVERIFY(outbox.bringAll(**connection, site, [] { return true; }));
        QVERIFY(outbox.bring(kept->id, **connection, site).value());
        QCOMPARE(outbox.waiting(), std::vector<PhotoId>());
        QVERIFY(!outbox.waits(kept->id));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestPhotoOutbox)
#include "tst_photooutbox.moc"
