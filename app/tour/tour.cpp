// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "tour/tour.h"

#include "tour/brought.h"
#include "tour/hands.h"
#include "tour/visitor.h"

#include "demo/demopictures.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QQuickItem>
#include <QQuickWindow>
#include <QTextStream>
#include <QTimeZone>

namespace ramplight {

namespace {

constexpr int failedCode = 70;     // EX_SOFTWARE
constexpr int tourSchedules = 200; ///< the same plans each time

/// The demo workshop's time.
QTimeZone houseZone()
{
    return QTimeZone("Europe/London");
}

/// One walk at one size of the wall.
class Walk
{
public:
    Walk(KioskApp& app, QString folder, QString tag, QString pin, TourClock& clock,
         Hands::Photographing photograph)
        : m_app(app)
        , m_visitor(app.window())
        , m_hands(
              app, m_visitor, [&clock](int minutes) { clock.goOn(minutes); }, std::move(photograph),
              pin)
        , m_clock(clock)
        , m_folder(std::move(folder))
        , m_tag(std::move(tag))
        , m_pin(std::move(pin))
    {
    }

    [[nodiscard]] QString fault() const { return m_visitor.fault(); }
    /// From here on, to that stream, which outlives the walk.
    void tellSignatures(QTextStream& out)
    {
        out << "from " << m_clock.now().ms << Qt::endl;
        m_hands.onSignature(
            [&out](const QString& carId, OperationId operation, const Signature& signature) {
                out << "signed " << carId << ' ' << operation.value << ' ' << signature.by.value
                    << ' ' << signature.at.ms << Qt::endl;
            });
    }
    [[nodiscard]] QStringList pictures() const { return m_pictures; }

    bool makeDemo()
    {
        return m_visitor.untilSays(QStringLiteral("Set up this workshop")) &&
               shoot("first-start") && m_visitor.tap(QStringLiteral("Look at the demo workshop")) &&
               m_visitor.until([this] { return onWall(); }, QStringLiteral("the demo workshop"));
    }

    /// A car comes in with its appraisal: its card is on the wall from then on.
    bool takeIn()
    {
        const QString file = QString::fromLatin1(brought::appraisalFile);
        return m_hands.signIn(QStringLiteral("Runa Talbeck")) &&
               m_visitor.tap(QStringLiteral("Bring a car in")) && shoot("arrival") &&
               m_visitor.tap(QStringLiteral("From an appraisal file")) &&
               m_visitor.untilSays(file) && shoot("appraisal-file") && m_visitor.tap(file) &&
               m_visitor.untilSays(QStringLiteral("Taken in: %1")
                                       .arg(QString::fromLatin1(brought::appraisedStock))) &&
               shoot("taken-in") && m_hands.home() && m_hands.signOut();
    }

    /// A car with a safety item, work that can be begun and somebody to check it, this one (empty:
    /// whichever) if it has them; empty, with the fault, when there is none. What is left to do
    /// depends on how the demo's week went.
    QString carWithWork(const QString& first)
    {
        if (!m_visitor.until([this] { return onWall(); }, QStringLiteral("the wall")))
            return {};
        const WallModel& wall = *m_app.shell().wall();
        const auto told = [&wall](int row, const char* role) {
            return wall.data(wall.index(row), wall.roleNames().key(role));
        };
        QStringList held;
        if (!first.isEmpty())
            held.append(first);
        for (int row = 0; row < wall.rowCount(); ++row)
            if (told(row, "safetyCount").toInt() > 0)
                held.append(told(row, "stockNumber").toString());
        for (const QString& stockNumber : held) {
            if (!m_hands.openCar(stockNumber))
                return {};
            if (m_hands.nextOperation() > 0 && m_hands.checkersAreLeft())
                return m_hands.home() ? stockNumber : QString();
        }
        m_visitor.fail(QStringLiteral("no car on the wall has work that can be begun"));
        return {};
    }

    /// What anybody sees without touching much.
    bool lookRound(const QString& stockNumber)
    {
        if (!m_visitor.until([this] { return onWall(); }, QStringLiteral("the wall")) ||
            !isPlanned() || !m_visitor.toBeginning())
            return false;
        return shoot("wall") && m_visitor.tap(QStringLiteral("Who are you?")) &&
               m_visitor.untilSays(QStringLiteral("Ivo Kesteven")) && shoot("who-are-you") &&
               m_visitor.tap(QStringLiteral("Back")) &&
               m_hands.signIn(QStringLiteral("Ivo Kesteven")) &&
               m_hands.showSkill(QStringLiteral("wheels")) && shoot("waits-for-my-skill") &&
               m_visitor.tap(QStringLiteral("All")) && m_hands.openCar(stockNumber) &&
               shoot("car") && m_visitor.tap(QStringLiteral("Findings")) && shoot("findings") &&
               m_visitor.tap(QStringLiteral("Release")) && shoot("held");
    }

    /// One operation step by step, with its pictures.
    bool oneOperation(const QString& stockNumber)
    {
        if (!m_hands.openCar(stockNumber))
            return false;
        const int operation = m_hands.nextOperation();
        if (operation == 0)
            return m_visitor.fail(QStringLiteral("%1 has no work to begin").arg(stockNumber));
        return m_hands.openOperation(operation) && shoot("before-work") &&
               m_hands.openCar(stockNumber) && m_hands.begin(stockNumber, operation) &&
               shoot("in-hand") && m_hands.openReadings() && shoot("reading") &&
               m_hands.takeReadings() && m_hands.takePhotos() && shoot("ready-to-sign") &&
               m_hands.finish(stockNumber, operation);
    }

    /// The main job: on a car that is taken in, when the workshop is made, or on one that is there.
    bool all(bool isFirst)
    {
        const QString first =
            QString::fromLatin1(isFirst ? brought::appraisedStock : brought::spokenStock);
        const QString shown = !isFirst || (makeDemo() && takeIn()) ? carWithWork(first) : QString();
        return !shown.isEmpty() && lookRound(shown) && oneOperation(shown) &&
               (!isFirst || (allWork(shown) && release(shown))) && office();
    }

    bool onlyWork()
    {
        const QString stockNumber = carWithWork({});
        return !stockNumber.isEmpty() && allWork(stockNumber);
    }

    /// Everything that the car still needs, until nothing holds it.
    bool allWork(const QString& stockNumber)
    {
        if (!m_hands.openCar(stockNumber))
            return false;
        for (int step = 0; !m_hands.nothingHolds(); ++step) {
            // What is begun late would be stopped when the house closes.
            if (m_clock.isAfternoon()) {
                m_clock.nextMorning();
                if (!m_hands.waitFor(stockNumber, 0))
                    return false;
            }
            const int operation = m_hands.nextOperation();
            if (step > mostSteps)
                return m_visitor.fail(QStringLiteral("the work does not come to an end"));
            if (operation > 0 ? !m_hands.workOff(stockNumber, operation)
                              : !m_hands.waitFor(stockNumber, dryingMinutes))
                return false;
        }
        return shoot("car-done");
    }

    bool release(const QString& stockNumber)
    {
        const auto record = [this] { return m_app.shell().record(); };
        return m_hands.signIn(QStringLiteral("Odo Farlane")) && m_hands.openCar(stockNumber) &&
               m_visitor.tap(QStringLiteral("Release")) &&
               m_visitor.untilSays(QStringLiteral("Sign and release to sale")) &&
               shoot("release") && m_visitor.tap(QStringLiteral("Sign and release to sale")) &&
               m_visitor.until([this] { return !m_visitor.ofType("PinPad").empty(); },
                               QStringLiteral("the PIN again")) &&
               shoot("pin-again") && m_visitor.type(m_pin) &&
               m_visitor.until([&] { return record()->made(); }, QStringLiteral("the record")) &&
               shoot("record") && m_visitor.tap(QStringLiteral("Save as PDF")) &&
               m_visitor.until([&] { return !record()->savedPath().isEmpty(); },
                               QStringLiteral("the saved record")) &&
               QFile::copy(record()->savedPath(),
                           QStringLiteral("%1/handover-record-%2.pdf").arg(m_folder, stockNumber));
    }

    bool office()
    {
        return m_hands.home() && m_hands.signIn(QStringLiteral("Runa Talbeck")) &&
               m_visitor.tap(QStringLiteral("Bring a car in")) && spokenWalkRound() &&
               m_hands.home() && m_visitor.tap(QStringLiteral("Staff and bays")) &&
               shoot("staff") && m_hands.home() && planning();
    }

    /// From a transcript in the drop folder to its review.
    bool spokenWalkRound()
    {
        Shell& shell = m_app.shell();
        return m_visitor.tap(QStringLiteral("Spoken walk-rounds")) &&
               m_visitor.untilSays(QString::fromLatin1(brought::spokenFile)) &&
               shoot("transcripts") && m_visitor.tap(QString::fromLatin1(brought::spokenFile)) &&
               m_visitor.until(
                   [&] { return shell.review()->ready() && shell.review()->words()->count() > 0; },
                   QStringLiteral("the review")) &&
               shoot("review");
    }

    /// Who works on what, and when it will be ready.
    bool planning()
    {
        return m_hands.signIn(QStringLiteral("Ivo Kesteven")) &&
               m_visitor.tap(QStringLiteral("My next")) && isPlanned() && shoot("my-next") &&
               m_hands.home() && m_visitor.tap(QStringLiteral("Bays")) && isPlanned() &&
               shoot("bays") && m_visitor.tap(QStringLiteral("By bay")) && shoot("plan-bays") &&
               m_visitor.tap(QStringLiteral("By person")) && shoot("plan-people") &&
               m_visitor.tap(QStringLiteral("Cars")) && shoot("plan-cars") && m_hands.home();
    }

private:
    static constexpr int mostSteps = 60;
    static constexpr int dryingMinutes = 15;

    [[nodiscard]] bool onWall() const
    {
        return m_app.shell().siteSetUp() && m_app.shell().wall()->loaded();
    }

    bool isPlanned()
    {
        return m_visitor.until(
            [this] { return m_app.shell().plan()->planned() && !m_app.shell().plan()->working(); },
            QStringLiteral("the plan"));
    }

    bool shoot(const char* name)
    {
        const QString path = QStringLiteral("%1/%2-%3-%4.png")
                                 .arg(m_folder, m_tag)
                                 .arg(m_pictures.size() + 1, 2, 10, QLatin1Char('0'))
                                 .arg(QLatin1StringView(name));
        m_pictures.append(path);
        return m_visitor.shoot(path);
    }

    KioskApp& m_app;
    Visitor m_visitor;
    Hands m_hands;
    TourClock& m_clock;
    QString m_folder;
    QString m_tag;
    QString m_pin;
    QStringList m_pictures;
};

/// The appraisal of the car that comes in; of a short walk, with but its last finding: the other
/// places are sound.
QByteArray broughtAppraisal(bool small)
{
    QJsonObject file = QJsonDocument::fromJson(brought::appraisal).object();
    if (small) {
        QJsonArray findings = file["findings"].toArray();
        QJsonArray sound = file["sound"].toArray();
        while (findings.size() > 1)
            sound.append(findings.takeAt(0).toObject()["place"]);
        file["findings"] = findings;
        file["sound"] = sound;
    }
    return QJsonDocument(file).toJson();
}

} // namespace

TourClock::TourClock()
    : m_ms(QDateTime(QDate(2031, 5, 15), QTime(10, 40), houseZone()).toMSecsSinceEpoch())
{
}

void TourClock::beginAfter(Moment moment)
{
    m_ms = moment.ms;
    nextMorning();
}

void TourClock::nextMorning()
{
    const QDateTime local = QDateTime::fromMSecsSinceEpoch(m_ms, houseZone());
    QDate day = local.date().addDays(1);
    while (day.dayOfWeek() > Qt::Friday)
        day = day.addDays(1);
    m_ms = QDateTime(day, QTime(9, 10), houseZone()).toMSecsSinceEpoch();
}

bool TourClock::isAfternoon() const
{
    return QDateTime::fromMSecsSinceEpoch(m_ms, houseZone()).time() >= QTime(14, 30);
}

int runTour(const QString& folder, const QString& dropFolder, const QString& pin,
            const KioskServices& services, TourClock& clock, const TourWays& ways)
{
    QTextStream out(stdout);
    QTextStream err(stderr);
    QDir(folder).removeRecursively();
    if (!QDir().mkpath(folder)) {
        err << folder << " cannot be made." << Qt::endl;
        return failedCode;
    }
    // What a phone would have left there; no two of its pictures are the same.
    const QString car = QString::fromLatin1(brought::appraisedStock);
    int taken = 0;
    const auto photograph = [&] {
        const QImage picture = demo::drawPicture(PlaceId{QStringLiteral("wheel-front-right")},
                                                 PhotoMoment::After, car, taken++);
        return picture.save(dropFolder + QStringLiteral("/wheel-after.jpg"));
    };
    if (!photograph()) {
        err << dropFolder << " cannot be written." << Qt::endl;
        return failedCode;
    }
    for (const auto& [name, text] :
         {std::pair{brought::appraisalFile, broughtAppraisal(ways.small)},
          std::pair{brought::spokenFile, QByteArray(brought::spokenWords)}}) {
        QFile file(dropFolder + QLatin1Char('/') + QString::fromLatin1(name));
        if (!file.open(QIODevice::WriteOnly) || file.write(text) < 0) {
            err << file.fileName() << " cannot be written." << Qt::endl;
            return failedCode;
        }
    }
    QStringList pictures;
    const QSize lying = ways.small ? QSize(1280, 720) : QSize(1920, 1080);
    for (const QSize size : {lying, QSize(1080, 1920)}) {
        const bool wide = size.width() > size.height();
        if (!wide && (ways.small || ways.onlyWork))
            break;
        KioskOptions options;
        options.windowed = true;
        options.windowSize = size;
        options.screen.lessMotion = true;
        options.planning.schedules = tourSchedules;
        KioskApp app(options, services);
        if (!app.show()) {
            err << app.faults().join(QLatin1Char('\n')) << Qt::endl;
            return failedCode;
        }
        // The work of the first walk took until evening.
        if (!wide)
            clock.nextMorning();
        Walk walk(app, folder, wide ? QStringLiteral("wide") : QStringLiteral("tall"), pin, clock,
                  photograph);
        if (ways.tell)
            walk.tellSignatures(out);
        const bool walked = ways.onlyWork ? walk.onlyWork() : walk.all(wide);
        pictures += walk.pictures();
        if (!walked) {
            const QString last = folder + QStringLiteral("/stopped-here.png");
            app.window()->grabWindow().save(last);
            err << "The tour stopped (" << last << "): " << walk.fault() << Qt::endl;
            return failedCode;
        }
    }
    for (const QString& path : pictures)
        out << path << Qt::endl;
    return 0;
}

} // namespace ramplight
