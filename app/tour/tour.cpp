// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "tour/tour.h"

#include "tour/visitor.h"

#include "demo/demopictures.h"

#include <QDateTime>
#include <QDir>
#include <QQuickItem>
#include <QQuickWindow>
#include <QTextStream>
#include <QTimeZone>

namespace ramplight {

namespace {

constexpr int failedCode = 70; // EX_SOFTWARE

/// One walk at one size of the wall.
class Walk
{
public:
    Walk(KioskApp& app, QString folder, QString tag, QString pin, TourClock& clock)
        : m_app(app)
        , m_visitor(app.window())
        , m_folder(std::move(folder))
        , m_tag(std::move(tag))
        , m_pin(std::move(pin))
        , m_clock(clock)
    {
    }

    [[nodiscard]] QString fault() const { return m_visitor.fault(); }
    [[nodiscard]] QStringList pictures() const { return m_pictures; }

    bool makeDemo()
    {
        return m_visitor.untilSays(QStringLiteral("Set up this workshop")) &&
               shoot("first-start") && m_visitor.tap(QStringLiteral("Look at the demo workshop")) &&
               m_visitor.until([this] { return onWall(); }, QStringLiteral("the demo workshop"));
    }

    bool wall()
    {
        return m_visitor.until([this] { return onWall(); }, QStringLiteral("the wall")) &&
               shoot("wall") && signIn(QStringLiteral("Ivo Kesteven")) && shoot("signed-in");
    }

    bool carAndOperation()
    {
        if (!openCar(QStringLiteral("T-321")) || !shoot("car"))
            return false;
        const QString title = firstOpenOperation();
        if (title.isEmpty())
            return true;
        if (!m_visitor.tap(title) ||
            !m_visitor.until([this] { return m_app.shell().operation()->loaded(); }, title))
            return false;
        return shoot("operation-before");
    }

    bool release(const QString& stockNumber)
    {
        return home() && signIn(QStringLiteral("Odo Farlane")) && openCar(stockNumber) &&
               m_visitor.tap(QStringLiteral("Release")) &&
               m_visitor.untilSays(QStringLiteral("Sign and release to sale")) &&
               shoot("release") && m_visitor.tap(QStringLiteral("Sign and release to sale")) &&
               m_visitor.until([this] { return !m_visitor.ofType("PinPad").empty(); },
                               QStringLiteral("the PIN again")) &&
               m_visitor.type(m_pin) &&
               m_visitor.until([this] { return m_app.shell().record()->made(); },
                               QStringLiteral("the record")) &&
               shoot("record");
    }

private:
    [[nodiscard]] bool onWall() const
    {
        return m_app.shell().siteSetUp() && m_app.shell().wall()->loaded();
    }

    bool home()
    {
        while (m_visitor.says(QStringLiteral("Back")))
            if (!m_visitor.tap(QStringLiteral("Back")))
                return false;
        return !m_visitor.says(QStringLiteral("Back to the wall")) ||
               m_visitor.tap(QStringLiteral("Back to the wall"));
    }

    bool signIn(const QString& name)
    {
        m_app.shell().session()->signOut();
        return m_visitor.tap(QStringLiteral("Who are you?")) && m_visitor.tap(name) &&
               m_visitor.until([this] { return !m_visitor.ofType("PinPad").empty(); },
                               QStringLiteral("the PIN pad")) &&
               m_visitor.type(m_pin) &&
               m_visitor.until([this] { return m_app.shell().session()->signedIn(); }, name);
    }

    bool openCar(const QString& stockNumber)
    {
        return m_visitor.tap(stockNumber) &&
               m_visitor.until(
                   [&] {
                       return m_app.shell().car()->loaded() &&
                              m_app.shell().car()->stockNumber() == stockNumber;
                   },
                   stockNumber);
    }

    [[nodiscard]] QString firstOpenOperation() const
    {
        for (const OperationRow& row : m_app.shell().car()->operations()->rows())
            if (row.open)
                return row.title;
        return {};
    }

    bool shoot(const char* name)
    {
        const QString path = QStringLiteral("%1/%2-%3-%4.png")
                                 .arg(m_folder)
                                 .arg(m_pictures.size() + 1, 2, 10, QLatin1Char('0'))
                                 .arg(QLatin1StringView(name), m_tag);
        m_pictures.append(path);
        return m_visitor.shoot(path);
    }

    KioskApp& m_app;
    Visitor m_visitor;
    QString m_folder;
    QString m_tag;
    QString m_pin;
    TourClock& m_clock;
    QStringList m_pictures;
};

} // namespace

TourClock::TourClock()
    : m_ms(QDateTime(QDate(2031, 5, 15), QTime(10, 40), QTimeZone("Europe/London"))
               .toMSecsSinceEpoch())
{
}

int runTour(const QString& folder, const QString& dropFolder, const QString& pin,
            const KioskServices& services, TourClock& clock)
{
    QTextStream out(stdout);
    QTextStream err(stderr);
    QDir(folder).removeRecursively();
    if (!QDir().mkpath(folder)) {
        err << folder << " cannot be made." << Qt::endl;
        return failedCode;
    }
    // What a phone would have left there.
    const QImage picture = demo::drawPicture(PlaceId{QStringLiteral("wheel-front-left")},
                                             PhotoMoment::After, QStringLiteral("T-321"));
    if (!picture.save(dropFolder + QStringLiteral("/wheel-after.jpg"))) {
        err << dropFolder << " cannot be written." << Qt::endl;
        return failedCode;
    }
    QStringList pictures;
    for (const QSize size : {QSize(1920, 1080), QSize(1080, 1920)}) {
        KioskOptions options;
        options.windowed = true;
        options.windowSize = size;
        options.lessMotion = true;
        KioskApp app(options, services);
        if (!app.show()) {
            err << app.faults().join(QLatin1Char('\n')) << Qt::endl;
            return failedCode;
        }
        const bool wide = size.width() > size.height();
        Walk walk(app, folder, wide ? QStringLiteral("wide") : QStringLiteral("tall"), pin, clock);
        const bool walked = (!wide || walk.makeDemo()) && walk.wall() && walk.carAndOperation();
        pictures += walk.pictures();
        if (!walked) {
            err << "The tour stopped: " << walk.fault() << Qt::endl;
            return failedCode;
        }
    }
    for (const QString& path : pictures)
        out << path << Qt::endl;
    return 0;
}

} // namespace ramplight
