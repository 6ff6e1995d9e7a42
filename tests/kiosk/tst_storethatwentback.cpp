// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include "kiosk/planservice.h"

#include <QPromise>
#include <QTest>

#include <map>
#include <optional>
#include <utility>

namespace ramplight::test {

namespace {

/// A kiosk of a server that is away and comes back. It has what the bench has, or what the bench
/// had when it was backed up.
class RestoredDesk : public BenchDesk
{
public:
    [[nodiscard]] ServerStanding standing() const override { return m_standing; }
    [[nodiscard]] Answer<SiteState> site() override
    {
        if (std::exchange(m_holdsNext, false)) {
            m_slow.emplace().start();
            return m_slow->future();
        }
        return m_then ? answer(m_then->site) : BenchDesk::site();
    }
    [[nodiscard]] Answer<CarState> car(const CarId& id) override
    {
        return m_then ? answer(m_then->cars.at(id)) : BenchDesk::car(id);
    }
    [[nodiscard]] Answer<std::vector<CarCard>> openCards() override
    {
        return m_then ? answer(m_then->cards) : BenchDesk::openCards();
    }

    void backUp()
    {
        m_backup = {bench.ledger.site().value(), bench.ledger.cars(),
                    BenchDesk::openCards().result().value()};
    }
    /// The server is away, and what answers is a copy that has all.
    void goAway() { stand(true); }
    void comeBackFromTheBackup()
    {
        m_then = m_backup;
        stand(false);
    }
    /// The next answer about the site is long on its way.
    void holdNextAnswer() { m_holdsNext = true; }
    void letAnswerCome(const SiteState& site)
    {
        m_slow->addResult(site);
        m_slow->finish();
        m_slow.reset();
    }

private:
    struct Then
    {
        SiteState site;
        std::map<CarId, CarState> cars;
        std::vector<CarCard> cards;
    };
    template <class T>
    static Answer<T> answer(const T& value)
    {
        return QtFuture::makeReadyFuture(tl::expected<T, Failure>(value));
    }
    void stand(bool away)
    {
        m_standing.shared = true;
        m_standing.away = away;
        emit standingChanged();
        emit siteChanged();
        emit carsChanged();
    }

    ServerStanding m_standing;
    Then m_backup;
    std::optional<Then> m_then;
    std::optional<QPromise<tl::expected<SiteState, Failure>>> m_slow;
    bool m_holdsNext = false;
};

} // namespace

/// The server was brought back from a backup while it was away: nothing that was entered since is
/// shown any more.
class TestStoreThatWentBack : public QObject
{
    Q_OBJECT

private slots:
    void siteIsShownAsItIsNow()
    {
        RestoredDesk desk;
        SiteBook book(desk, desk.bench.catalogue);
        desk.backUp();
        const PersonId late = desk.bench.hire(QStringLiteral("Late Comer"), {}, {Right::Work});
        book.refresh();
        QTRY_COMPARE(book.nameOf(late), QStringLiteral("Late Comer"));
        desk.goAway();
        desk.comeBackFromTheBackup();
        QTRY_VERIFY(book.site().person(late) == nullptr);
    }

    void answerOfTheStoreBefore_comesTooLate()
    {
        RestoredDesk desk;
        SiteBook book(desk, desk.bench.catalogue);
        desk.backUp();
        const PersonId late = desk.bench.hire(QStringLiteral("Late Comer"), {}, {Right::Work});
        const SiteState before = desk.bench.ledger.site().value();
        book.refresh();
        QTRY_VERIFY(book.site().person(late) != nullptr);
        desk.goAway();
        desk.holdNextAnswer();
        book.refresh();
        desk.comeBackFromTheBackup();
        desk.letAnswerCome(before);
        book.take(before); // with the outcome of something that was asked then
        QTRY_VERIFY(book.site().person(late) == nullptr);
        QCoreApplication::processEvents();
        QVERIFY(book.site().person(late) == nullptr);
    }

    void olderAnswerOfTheSameStore_changesNothing()
    {
        RestoredDesk desk;
        SiteBook book(desk, desk.bench.catalogue);
        const SiteState early = desk.bench.ledger.site().value();
        const PersonId late = desk.bench.hire(QStringLiteral("Late Comer"), {}, {Right::Work});
        book.refresh();
        QTRY_VERIFY(book.site().person(late) != nullptr);
        emit desk.standingChanged();
        book.take(early);
        QVERIFY(book.site().person(late) != nullptr);
    }

    void planIsOfTheCarsAsTheyAreNow()
    {
        RestoredDesk desk;
        SiteBook book(desk, desk.bench.catalogue);
        CardFeed feed(desk);
        Ticker ticker(desk.bench.clock);
        const CarId car = desk.bench.appraised();
        PlanPace pace;
        pace.quietMs = 1;
        pace.schedules = 1;
        pace.runs = 1;
        PlanService plans(desk, feed, book, ticker, pace);
        const auto isPlanned = [&](std::size_t findings) {
            const CarState* known = plans.car(car);
            return known != nullptr && known->findings.size() == findings && !plans.isWorking();
        };
        const std::size_t then = desk.bench.ledger.cars().at(car).findings.size();
        desk.backUp();
        desk.bench.found(car, "brakes-front", Condition::Worn);
        book.refresh();
        feed.refresh();
        QTRY_VERIFY(isPlanned(then + 1));
        desk.goAway();
        desk.comeBackFromTheBackup();
        QTRY_VERIFY(isPlanned(then));
    }
};

} // namespace ramplight::test

RAMPLIGHT_TEST(QCoreApplication, ramplight::test::TestStoreThatWentBack)
#include "tst_storethatwentback.moc"
