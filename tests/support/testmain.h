// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QCoreApplication>
#ifdef QT_GUI_LIB
#include <QGuiApplication>
#endif
#include <QTest>

// Tests of a folder can be one program (TOGETHER in its CMakeLists), as linking each and starting
// moc for it costs more than most of them: `tests_domain tst_holds [function]...` runs one. A
// test's file then ends with the line
//   RAMPLIGHT_TEST(QGuiApplication, TestHolds)     or QCoreApplication, or NoApplication
// in the place of Qt's QTEST_MAIN.
namespace ramplight::test {

/// For tests that need no event loop.
struct NoApplication
{
    NoApplication(int&, char**) {}
};

/// Makes a test known by the name of its file.
class TestEntry
{
public:
    using Run = int (*)(int argc, char** argv);
    TestEntry(const char* file, Run run);
};

template <class Test>
extern const TestEntry testEntry;

template <class Application, class Test>
int runTest(int argc, char** argv)
{
    QTest::Internal::callInitMain<Test>();
    [[maybe_unused]] const Application application(argc, argv);
    Test test;
    return QTest::qExec(&test, argc, argv);
}

} // namespace ramplight::test

#define RAMPLIGHT_TEST(Application, Test)                                                          \
    template <>                                                                                    \
    const ramplight::test::TestEntry ramplight::test::testEntry<Test>{                             \
        __FILE__, &ramplight::test::runTest<Application, Test>};
