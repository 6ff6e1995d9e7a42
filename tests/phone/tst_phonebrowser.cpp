// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "phone/browser.h"

#include "evidence/evidenceerror.h"
#include "evidence/photodecoder.h"
#include "evidence/samples.h"
#include "phone/phoneserver.h"

#include <QFile>
#include <QTest>

#include <atomic>

using namespace ramplight;
using namespace ramplight::test;

/// The page in a real browser over loopback: photos chosen, sent and answered, with its script and
/// without any.
class tst_PhoneBrowser : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase();
    void photos_areSentOneByOne();
    void withoutScripts_theFormSendsThem();

private:
    QString file(const QString& name, const QByteArray& bytes);

    QTemporaryDir m_files;
};

namespace {

/// Decodes on the server's own thread: this test does nothing else meanwhile.
struct Served
{
    Served()
        : server(
              [this](InvitationId, const QByteArray& photo, const PhoneServer::Reply& reply) {
                  const auto image = decodePhoto(photo);
                  if (image)
                      ++taken;
                  reply(image ? PhotoAnswer(QString())
                              : PhotoAnswer(tl::unexpected(words(image.error()))));
              },
              PhoneLimits{}, [] { return qint64{0}; })
    {
        if (const auto listening = server.listen(QStringLiteral("127.0.0.1"), 0); !listening)
            QTest::qFail(qPrintable(listening.error()), __FILE__, __LINE__);
        invitation = server.invite({QStringLiteral("after: Face and lip, same light"),
                                    QStringLiteral("Refurbish the wheel · near side front"),
                                    QStringLiteral("K-7 · RL 2041 · Aurel Kestin")});
    }
    [[nodiscard]] QString address() const { return server.addressOf(invitation); }

    std::atomic<int> taken = 0;
    PhoneServer server;
    PhoneInvitation invitation;
};

} // namespace

void tst_PhoneBrowser::initTestCase()
{
    if (Browser::program().isEmpty())
        QSKIP("no Chromium here: apt-get install chromium");
}

QString tst_PhoneBrowser::file(const QString& name, const QByteArray& bytes)
{
    QFile file(m_files.filePath(name));
    if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size())
        QTest::qFail(qPrintable(file.errorString()), __FILE__, __LINE__);
    return file.fileName();
}

void tst_PhoneBrowser::photos_areSentOneByOne()
{
    Served served;
    const QString first =
        file(QStringLiteral("1.jpg"), samples::jpeg(samples::panel({4000, 3000}, 1)));
    const QString second =
        file(QStringLiteral("2.jpg"), samples::jpeg(samples::panel({1600, 1200}, 2)));
    const QString none = file(QStringLiteral("3.jpg"), "no photo");
    Browser browser;
    browser.open(served.address());
    QVERIFY(browser.untilThere(QStringLiteral("body.scripted"), 1));
    browser.shoot(QStringLiteral("page-empty"));
    browser.choose(QStringLiteral("#camera"), {first, second});
    QVERIFY(browser.untilThere(QStringLiteral("li.taken"), 2));
    QCOMPARE(served.taken, 2);
    browser.choose(QStringLiteral("#album"), {none});
    QVERIFY(browser.untilThere(QStringLiteral("li.refused"), 1));
    const QString refused = browser.texts(QStringLiteral("li.refused")).constFirst();
    QVERIFY2(refused.contains(words(EvidenceError::NotAPhoto)), qPrintable(refused));
    QVERIFY(browser.untilThere(QStringLiteral("progress"), 0));
    browser.shoot(QStringLiteral("page-sent"));
    QCOMPARE(browser.complaints(), QStringList());
    // The sheet at the kiosk is closed.
    served.server.end(served.invitation.id);
    browser.choose(QStringLiteral("#camera"), {second});
    QVERIFY(browser.untilThere(QStringLiteral("li.refused"), 2));
    QCOMPARE(served.taken, 2);
    browser.open(served.address());
    QVERIFY(
        browser.texts(QStringLiteral("h1")).constFirst().contains(phonewords::nothingHereTitle()));
    browser.shoot(QStringLiteral("page-over"));
    QCOMPARE(browser.complaints(), QStringList());
}

void tst_PhoneBrowser::withoutScripts_theFormSendsThem()
{
    Served served;
    const QString photo =
        file(QStringLiteral("4.jpg"), samples::jpeg(samples::panel({1600, 1200}, 4)));
    const QString none = file(QStringLiteral("5.jpg"), "<svg></svg>");
    Browser browser;
    browser.open(served.address(), false);
    QVERIFY(browser.texts(QStringLiteral("body.scripted")).isEmpty());
    browser.shoot(QStringLiteral("page-plain"));
    browser.choose(QStringLiteral("#camera"), {photo, none});
    browser.click(QStringLiteral("button"));
    QVERIFY(browser.untilThere(QStringLiteral("li.taken"), 1));
    QVERIFY(browser.untilThere(QStringLiteral("li.refused"), 1));
    QCOMPARE(served.taken, 1);
    browser.shoot(QStringLiteral("page-plain-sent"));
}

QTEST_GUILESS_MAIN(tst_PhoneBrowser)
#include "tst_phonebrowser.moc"
