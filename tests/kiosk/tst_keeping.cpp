// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include <QSemaphore>
#include <QTest>
#include <QThread>

#include <mutex>

namespace ramplight::test {

namespace {

/// A disk that writes when it is let, and says what it was told to say.
template <class T>
class SlowDisk
{
public:
    typename Keeping<T>::Keeper keeper()
    {
        return [this](const T& value) {
            m_begun.release();
            m_may.acquire();
            const std::lock_guard guard(m_guard);
            m_offScreen = m_offScreen && QThread::currentThread() != m_screen;
            if (m_fault.isEmpty())
                m_kept.push_back(value);
            return m_fault;
        };
    }
    /// Somebody is at it.
    [[nodiscard]] bool begins() { return m_begun.tryAcquire(1, 30'000); }
    /// The next write comes to its end; with words, in vain.
    void end(const QString& fault = {})
    {
        {
            const std::lock_guard guard(m_guard);
            m_fault = fault;
        }
        m_may.release();
    }
    [[nodiscard]] std::vector<T> kept()
    {
        const std::lock_guard guard(m_guard);
        return m_kept;
    }
    /// None of it was done by the screens' thread.
    [[nodiscard]] bool isOffScreen()
    {
        const std::lock_guard guard(m_guard);
        return m_offScreen;
    }

private:
    QSemaphore m_begun;
    QSemaphore m_may;
    std::mutex m_guard;
    QThread* m_screen = QThread::currentThread();
    bool m_offScreen = true;
    QString m_fault;
    std::vector<T> m_kept;
};

const auto fullDisk = QStringLiteral("The settings cannot be written. Nothing was changed.");

} // namespace

// What is set on a kiosk is written beside the screens' thread: a disk that takes long stops
// nobody's touch, and one that refuses is told and asked again.
class TestKeeping : public QObject
{
    Q_OBJECT

private slots:
    void screen_isSetOnceItIsKept();
    void twoChanges_areBothKept();
    void screen_thatCannotBeKept_isToldAndTriedAgain();
    void printer_isSetOnceItIsKept_alsoAtASecondTry();
    void phones_areTakenBack_whatCannotBeKept();
};

void TestKeeping::screen_isSetOnceItIsKept()
{
    SlowDisk<ScreenSettings> disk;
    ViewBench kiosk({.screen = disk.keeper()});
    ScreenView* screen = kiosk.shell.screen();
    kiosk.signIn(kiosk.bench.manager);
    screen->setLight(true);
    kiosk.typePin(kiosk.bench.manager);
    QTRY_VERIFY(screen->ask()->busy());
    QVERIFY(disk.begins());
    // The screens go on meanwhile.
    kiosk.settle();
    QVERIFY(!screen->light());
    disk.end();
    QTRY_VERIFY(screen->light());
    QTRY_VERIFY(!screen->ask()->busy());
    QVERIFY(!screen->ask()->refused());
    QCOMPARE(disk.kept().size(), std::size_t{1});
    QVERIFY(disk.kept().front().light);
    QVERIFY(disk.isOffScreen());
}

void TestKeeping::twoChanges_areBothKept()
{
    SlowDisk<ScreenSettings> disk;
    ViewBench kiosk({.screen = disk.keeper()});
    ScreenView* screen = kiosk.shell.screen();
    kiosk.signIn(kiosk.bench.manager);
    screen->setLight(true);
    kiosk.typePin(kiosk.bench.manager);
    QVERIFY(QTest::qWaitFor([&] { return screen->ask()->busy(); }));
    QVERIFY(disk.begins());
    screen->setLessMotion(true);
    kiosk.typePin(kiosk.bench.manager);
    QTRY_COMPARE(kiosk.shell.session()->stage(), Session::Nobody);
    disk.end();
    disk.end();
    QTRY_VERIFY(screen->light() && screen->lessMotion());
    QCOMPARE(disk.kept().size(), std::size_t{2});
    QVERIFY(disk.kept().back().light && disk.kept().back().lessMotion);
}

void TestKeeping::screen_thatCannotBeKept_isToldAndTriedAgain()
{
    SlowDisk<ScreenSettings> disk;
    ViewBench kiosk({.screen = disk.keeper()});
    ScreenView* screen = kiosk.shell.screen();
    kiosk.signIn(kiosk.bench.manager);
    disk.end(fullDisk);
    screen->setDiagonal(QStringLiteral("32"));
    kiosk.typePin(kiosk.bench.manager);
    QTRY_VERIFY(screen->ask()->refused());
    QCOMPARE(screen->ask()->words(), fullDisk);
    QVERIFY(screen->ask()->canRetry());
    QCOMPARE(screen->diagonalText(), QStringLiteral("24.0"));
    disk.end();
    screen->ask()->retry();
    QTRY_COMPARE(screen->diagonalText(), QStringLiteral("32.0"));
    QVERIFY(!screen->ask()->refused());
    QCOMPARE(disk.kept().size(), std::size_t{1});
}

void TestKeeping::printer_isSetOnceItIsKept_alsoAtASecondTry()
{
    SlowDisk<QString> disk;
    ViewBench kiosk({.printer = disk.keeper()});
    PrinterView* printer = kiosk.shell.printer();
    kiosk.signIn(kiosk.bench.manager);
    printer->setQueue(QStringLiteral("hall"));
    kiosk.typePin(kiosk.bench.manager);
    QTRY_VERIFY(printer->ask()->busy());
    QVERIFY(disk.begins());
    kiosk.settle();
    QCOMPARE(printer->queue(), QStringLiteral("office"));
    disk.end(fullDisk);
    QTRY_VERIFY(printer->ask()->refused());
    QCOMPARE(printer->ask()->words(), fullDisk);
    QCOMPARE(printer->queue(), QStringLiteral("office"));
    disk.end();
    printer->ask()->retry();
    QTRY_COMPARE(printer->queue(), QStringLiteral("hall"));
    QVERIFY(disk.kept() == std::vector{QStringLiteral("hall")});
    QVERIFY(disk.isOffScreen());
}

void TestKeeping::phones_areTakenBack_whatCannotBeKept()
{
    SlowDisk<PhoneSettings> disk;
    ViewBench kiosk({.phone = disk.keeper()});
    PhoneAddress* setting = kiosk.shell.phoneAddress();
    // Whatever port is free.
    QCOMPARE(kiosk.shell.phone()->serve({QString(), 0}), QString());
    kiosk.signIn(kiosk.bench.manager);
    setting->setAddress(QStringLiteral("127.0.0.1"));
    kiosk.typePin(kiosk.bench.manager);
    QTRY_VERIFY(setting->ask()->busy());
    QVERIFY(disk.begins());
    kiosk.settle();
    QCOMPARE(setting->address(), QStringLiteral("127.0.0.1"));
    disk.end(fullDisk);
    QTRY_VERIFY(setting->ask()->refused());
    QCOMPARE(setting->ask()->words(), fullDisk);
    QCOMPARE(setting->address(), QString());
    disk.end();
    setting->ask()->retry();
    QTRY_VERIFY(!setting->ask()->busy());
    QVERIFY(!setting->ask()->refused());
    QCOMPARE(setting->address(), QStringLiteral("127.0.0.1"));
    QVERIFY(disk.kept() == (std::vector{PhoneSettings{QStringLiteral("127.0.0.1"), 0}}));
    QVERIFY(disk.isOffScreen());
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestKeeping)
#include "tst_keeping.moc"
