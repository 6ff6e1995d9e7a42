// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include <QDir>
#include <QQuickItem>
#include <QQuickWindow>
#include <QRegularExpression>
#include <QSGRendererInterface>
#include <QTest>

namespace ramplight::test {

bool liesWithin(const QQuickItem* item, const QQuickItem* around)
{
    return around->boundingRect().contains(item->mapRectToItem(around, item->boundingRect()));
}

bool isInSight(const QQuickItem* item)
{
    if (item->window() == nullptr || !liesWithin(item, item->window()->contentItem()))
        return false;
    for (const QQuickItem* at = item->parentItem(); at != nullptr; at = at->parentItem())
        if (at->clip() && !liesWithin(item, at))
            return false;
    return true;
}

void failOnQmlWarnings()
{
    // Not what a machine without sound or camera says.
    QTest::failOnWarning(QRegularExpression(QStringLiteral("\\.qml|QML|QQml")));
}

KioskBench::KioskBench(BenchHouse::Start start)
    : m_house(start)
{
}

KioskBench::~KioskBench() = default;

void KioskBench::show(QSize size, bool light, Where where)
{
    KioskOptions options;
    options.windowed = true;
    options.windowSize = size;
    options.screen.lessMotion = true;
    options.screen.light = light;
    options.planning = m_planning;
    options.lastPlace = std::exchange(m_lastPlace, {});
    options.keepPlace = [this](const QString& place) { m_place = place; };
    m_visitor.reset();
    m_app.reset();
    const auto camera = [this]() -> std::unique_ptr<Camera> {
        auto made = std::make_unique<BenchCamera>();
        made->plug(m_hasCamera);
        m_camera = made.get();
        return made;
    };
    m_app = std::make_unique<KioskApp>(
        options, KioskServices{m_house.desk(), m_house.clock, m_house.catalogue, m_house.photos(),
                               m_house.demoMaker(), &m_house.backups(), camera});
    if (!m_app->show()) {
        QTest::qFail(qPrintable(m_app->faults().join(QLatin1Char('\n'))), where.file_name(),
                     static_cast<int>(where.line()));
        return;
    }
    m_visitor = std::make_unique<Visitor>(m_app->window());
    const auto wanted = qEnvironmentVariable("QSG_RHI_BACKEND") == QLatin1StringView("opengl")
                            ? QSGRendererInterface::OpenGL
                            : QSGRendererInterface::Software;
    if (!QTest::qWaitForWindowExposed(window()) ||
        window()->rendererInterface()->graphicsApi() != wanted) {
        QTest::qFail("the window is not drawn as this test is to draw it", where.file_name(),
                     static_cast<int>(where.line()));
        return;
    }
    until(
        [this] {
            return m_torn
                       ? shell().recovery()->needed()
                       : shell().siteRead() && (!shell().siteSetUp() || shell().wall()->loaded());
        },
        QStringLiteral("the wall"), where);
    m_visitor->settle();
}

void KioskBench::cutPower(Where where)
{
    const QSize size = window()->size();
    m_visitor.reset();
    m_app.reset();
    m_house.cutPower();
    show(size, false, where);
}

void KioskBench::openAgain(Where where)
{
    const QSize size = window()->size();
    m_visitor.reset();
    m_app.reset();
    m_house.openAgain();
    m_torn = false;
    show(size, false, where);
}

void KioskBench::startAfterFreezing(Where where)
{
    m_lastPlace = m_place;
    openAgain(where);
}

void KioskBench::tearDatabase(BenchHouse::Torn part, const CarId& of, Where where)
{
    const QSize size = window()->size();
    m_visitor.reset();
    m_app.reset();
    m_house.tearDatabase(part, of);
    m_torn = part != BenchHouse::Torn::WordsOfCar;
    show(size, false, where);
}

void KioskBench::changeWords(const CarId& of, Where where)
{
    tearDatabase(BenchHouse::Torn::WordsOfCar, of, where);
}

bool KioskBench::told(bool came, Where where) const
{
    if (!came)
        QTest::qFail(qPrintable(m_visitor->fault()), where.file_name(),
                     static_cast<int>(where.line()));
    return came;
}

QQuickItem* KioskBench::ofType(const char* type, const char* property, const QString& text) const
{
    QQuickItem* found = nullptr;
    for (QQuickItem* item : ofType(type))
        if (item->property(property).toString() == text)
            found = item;
    return found;
}

QString KioskBench::titleOf(const Choices* choices, const QString& choiceId)
{
    for (const ChoiceRow& row : choices->rows())
        if (row.choiceId == choiceId)
            return row.title;
    return QStringLiteral("no choice %1").arg(choiceId);
}

bool KioskBench::until(const std::function<bool()>& true_, const QString& what, Where where)
{
    return told(m_visitor->until(true_, what), where);
}

bool KioskBench::untilSays(const QString& words, Where where)
{
    return told(m_visitor->untilSays(words), where);
}

bool KioskBench::untilGone(const QString& words, Where where)
{
    return until([&] { return !says(words); }, QStringLiteral("the end of: %1").arg(words), where);
}

bool KioskBench::tap(const QString& words, Where where)
{
    return told(m_visitor->tap(words), where);
}

bool KioskBench::tap(QQuickItem* item, Where where)
{
    return told(m_visitor->tap(item), where);
}

bool KioskBench::type(const QString& text, Where where)
{
    return told(m_visitor->type(text), where);
}

bool KioskBench::write(const QString& label, const QString& text, Where where)
{
    QQuickItem* field = nullptr;
    const auto there = [&] {
        field = ofType("Field", "label", label);
        if (field == nullptr)
            field = ofType("NoteField", "label", label);
        return field != nullptr;
    };
    if (!until(there, label, where))
        return false;
    const auto* input = field->property("input").value<QQuickItem*>();
    if ((input == nullptr || !input->hasActiveFocus()) && !tap(field, where))
        return false;
    return type(text, where) && told(m_visitor->hideKeyboard(), where);
}

bool KioskBench::openCar(const QString& stockNumber, Where where)
{
    return tap(stockNumber, where) &&
           until([&] { return shell().car()->loaded() && !ofType("OperationLine").empty(); },
                 stockNumber, where);
}

bool KioskBench::openWork(OperationId work, Where where)
{
    const auto line = [&] {
        return ofType("OperationLine", "operationId", QString::number(work.value));
    };
    const auto opened = [&] {
        return shell().operation()->operationId() == work.value && shell().operation()->loaded() &&
               !ofType("OperationScreen").empty();
    };
    return tapListed(line, QStringLiteral("the line of the work"), where) &&
           until(opened, QStringLiteral("the operation"), where);
}

bool KioskBench::tapListed(const std::function<QQuickItem*()>& look, const QString& what,
                           Where where)
{
    return told(m_visitor->tapInList(look, what), where);
}

bool KioskBench::enterPin(const QString& pin, Where where)
{
    return until([this] { return !ofType("PinPad").empty(); }, QStringLiteral("the PIN pad"),
                 where) &&
           type(pin, where);
}

bool KioskBench::signIn(const QString& name, Where where)
{
    return tap(name, where) && enterPin(BenchHouse::pin(), where) &&
           until([&] { return shell().session()->signedIn(); },
                 QStringLiteral("%1 signed in").arg(name), where);
}

void KioskBench::shoot(const QString& name)
{
    const QString folder = qEnvironmentVariable("RAMPLIGHT_SHOTS");
    if (folder.isEmpty())
        return;
    QDir().mkpath(folder);
    const QSize size = window()->size();
    m_visitor->shoot(
        QStringLiteral("%1/%2-%3.png")
            .arg(folder, name,
                 size.width() > size.height() ? QStringLiteral("wide") : QStringLiteral("tall")));
}

void sizes()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

} // namespace ramplight::test
