// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include <QDir>
#include <QPointingDevice>
#include <QQuickItem>
#include <QQuickWindow>
#include <QRegularExpression>
#include <QTest>

#include <algorithm>

namespace ramplight::test {

namespace {

constexpr int patience = 10'000;

QPointingDevice* finger()
{
    static QPointingDevice* const device = QTest::createTouchDevice();
    return device;
}

QString spokenBy(const QQuickItem* item)
{
    for (const char* name : {"spoken", "text"}) {
        const QVariant value = item->property(name);
        if (value.typeId() == QMetaType::QString && !value.toString().isEmpty())
            return value.toString();
    }
    return {};
}

/// "CarCard" of "CarCard_QMLTYPE_12".
bool isOf(const QQuickItem* item, const QByteArray& type)
{
    const QByteArray name = item->metaObject()->className();
    return name == type || name.startsWith(type + "_QML");
}

/// In painting order; what lies on top comes last.
void walk(QQuickItem* item, const std::function<void(QQuickItem*)>& look)
{
    if (!item->isVisible() || item->opacity() <= 0)
        return;
    look(item);
    QList<QQuickItem*> children = item->childItems();
    std::ranges::stable_sort(children, {}, &QQuickItem::z);
    for (QQuickItem* child : children)
        walk(child, look);
}

QPointF middleOf(const QQuickItem* item)
{
    return item->mapToScene({item->width() / 2, item->height() / 2});
}

/// The nearest thing that scrolls around an item.
QQuickItem* scrollerOf(QQuickItem* item)
{
    for (QQuickItem* at = item->parentItem(); at != nullptr; at = at->parentItem())
        if (at->inherits("QQuickFlickable"))
            return at;
    return nullptr;
}

/// What a person reads of an item's middle: inside the window and not cut away by what scrolls.
bool inSight(QQuickItem* item)
{
    const QPointF middle = middleOf(item);
    const QQuickWindow* window = item->window();
    if (window == nullptr || !QRectF(QPointF(), QSizeF(window->size())).contains(middle))
        return false;
    for (QQuickItem* at = item->parentItem(); at != nullptr; at = at->parentItem())
        if (at->clip() && !at->contains(at->mapFromScene(middle)))
            return false;
    return true;
}

} // namespace

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
    options.lessMotion = true;
    options.lightTheme = light;
    m_app.reset();
    m_app = std::make_unique<KioskApp>(options, KioskServices{m_house.desk(), m_house.clock,
                                                              m_house.catalogue, m_house.photos(),
                                                              m_house.demoMaker()});
    if (!m_app->show()) {
        fail(m_app->faults().join(QLatin1Char('\n')), where);
        return;
    }
    until(
        [this] { return shell().siteRead() && (!shell().siteSetUp() || shell().wall()->loaded()); },
        QStringLiteral("the wall"), where);
    settle();
}

void KioskBench::fail(const QString& what, Where where) const
{
    QTest::qFail(qPrintable(what), where.file_name(), static_cast<int>(where.line()));
}

void KioskBench::settle()
{
    // Polishing and a frame, so that positions are those on the screen.
    QCoreApplication::processEvents();
    (void)window()->grabWindow();
    QCoreApplication::processEvents();
}

QQuickItem* KioskBench::find(const QString& words) const
{
    QQuickItem* found = nullptr;
    walk(m_app->window()->contentItem(), [&](QQuickItem* item) {
        if (spokenBy(item) == words)
            found = item;
    });
    return found;
}

std::vector<QQuickItem*> KioskBench::ofType(const char* type) const
{
    std::vector<QQuickItem*> found;
    walk(m_app->window()->contentItem(), [&](QQuickItem* item) {
        if (isOf(item, type))
            found.push_back(item);
    });
    return found;
}

QString KioskBench::allWords() const
{
    QStringList all;
    walk(m_app->window()->contentItem(), [&](QQuickItem* item) {
        if (const QString words = spokenBy(item); !words.isEmpty() && !all.contains(words))
            all.append(words);
    });
    return all.join(QLatin1Char('\n'));
}

bool KioskBench::until(const std::function<bool()>& true_, const QString& what, Where where)
{
    if (QTest::qWaitFor(true_, patience))
        return true;
    fail(QStringLiteral("did not come: %1. On the screen:\n%2").arg(what, allWords()), where);
    return false;
}

bool KioskBench::untilSays(const QString& words, Where where)
{
    return until([&] { return says(words); }, words, where);
}

bool KioskBench::untilGone(const QString& words, Where where)
{
    return until([&] { return !says(words); }, QStringLiteral("the end of: %1").arg(words), where);
}

bool KioskBench::tap(const QString& words, Where where)
{
    return untilSays(words, where) && tap(find(words), where);
}

bool KioskBench::tap(QQuickItem* item, Where where)
{
    settle();
    // A finger drags what lies outside into sight, half a view at a time.
    for (int i = 0; i < 60 && !inSight(item); ++i) {
        QQuickItem* scroller = scrollerOf(item);
        while (scroller != nullptr && scroller->contains(scroller->mapFromScene(middleOf(item))))
            scroller = scrollerOf(scroller);
        if (scroller == nullptr)
            break;
        const QPointF at = middleOf(scroller);
        const QPointF off = scroller->mapFromScene(middleOf(item)) -
                            QPointF(scroller->width() / 2, scroller->height() / 2);
        const bool tall = std::abs(off.y()) > scroller->height() / 2;
        const qreal reach = (tall ? scroller->height() : scroller->width()) * 0.4;
        const qreal way = std::clamp(tall ? off.y() : off.x(), -reach, reach);
        drag(at, at - (tall ? QPointF(0, way) : QPointF(way, 0)));
        settle();
    }
    if (!inSight(item)) {
        fail(QStringLiteral("cannot be touched: %1").arg(spokenBy(item)), where);
        return false;
    }
    tapAt(middleOf(item));
    return true;
}

void KioskBench::tapAt(QPointF point)
{
    QTest::touchEvent(window(), finger()).press(0, point.toPoint(), window());
    QTest::touchEvent(window(), finger()).release(0, point.toPoint(), window());
    QCoreApplication::processEvents();
}

void KioskBench::drag(QPointF from, QPointF to)
{
    constexpr int steps = 12;
    QTest::touchEvent(window(), finger()).press(0, from.toPoint(), window());
    for (int i = 1; i <= steps; ++i) {
        const QPointF at = from + (to - from) * i / steps;
        QTest::touchEvent(window(), finger()).move(0, at.toPoint(), window());
    }
    // Held still before it lets go, so that nothing flies on.
    for (int i = 0; i < 4; ++i)
        QTest::touchEvent(window(), finger()).stationary(0);
    QTest::touchEvent(window(), finger()).release(0, to.toPoint(), window());
    QCoreApplication::processEvents();
}

bool KioskBench::type(const QString& text, Where where)
{
    const auto key = [this](const QString& sign) -> QQuickItem* {
        QQuickItem* found = nullptr;
        for (QQuickItem* cap : ofType("KeyCap"))
            if (cap->property("text").toString().compare(sign, Qt::CaseInsensitive) == 0)
                found = cap;
        return found;
    };
    for (const QChar sign : text) {
        const QString wanted = sign == QLatin1Char(' ') ? QStringLiteral("space") : QString(sign);
        if (!until([&] { return key(wanted) != nullptr; }, QStringLiteral("key %1").arg(wanted),
                   where))
            return false;
        if (sign.isLetter() && sign.isUpper() && key(wanted)->property("text") != wanted)
            for (QQuickItem* cap : ofType("KeyCap"))
                if (cap->property("symbol").toInt() == 7 && !tap(cap, where))
                    return false;
        if (!tap(key(wanted), where))
            return false;
    }
    return true;
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
    settle();
    const QImage image = window()->grabWindow();
    image.save(
        QStringLiteral("%1/%2-%3.png")
            .arg(folder, name,
                 image.width() > image.height() ? QStringLiteral("wide") : QStringLiteral("tall")));
}

} // namespace ramplight::test
