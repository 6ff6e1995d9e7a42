// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planhands.h"
#include "touchtargets.h"

#include <QDir>
#include <QTest>

#include <algorithm>
#include <functional>

// The demo workshop's kiosk, led through every screen that there is but those of a start without
// any workshop; and that a glove hits what can be touched on each.
namespace ramplight::test {

class ScreenWalk
{
public:
    explicit ScreenWalk(KioskBench& bench)
        : m_bench(bench)
    {
    }

    /// A car whose walk-round was spoken, and one that is ready to go. Before the kiosk is shown.
    bool isPrepared()
    {
        BenchHouse& house = m_bench.house();
        house.putTranscript(QStringLiteral("walk.vtt"),
                            BenchHouse::spoken(QStringLiteral("K-7 walk.vtt")));
        m_spoken = house.carByStock(QStringLiteral("T-323"));
        const auto read = house.desk()
                              .readTranscript(house.dropFolder() + QStringLiteral("/walk.vtt"),
                                              m_spoken, house.person(QStringLiteral("Odo")))
                              .result();
        const std::vector<CarCard> cards = house.cards();
        const auto ready = std::ranges::find_if(cards, [&](const CarCard& card) {
            return card.statusAt(house.clock.now()) == CarStatus::ReadyForRelease;
        });
        if (ready != cards.end())
            m_ready = ready->car;
        return read && ready != cards.end();
    }
    [[nodiscard]] const CarId& ready() const { return m_ready; }

    /// looked: what has to hold of each screen. released: sees to it that ready() is, so that there
    /// is a record.
    bool goesRound(std::function<bool(const QString& screen)> looked,
                   const std::function<bool()>& released)
    {
        m_looked = std::move(looked);
        return comesTo("Wall") && goesToLists() && goesToSpokenCar() && goesToReadyCar(released) &&
               hasSeenAll();
    }

private:
    bool comesTo(const char* screen)
    {
        const QByteArray type = screen + QByteArray("Screen");
        if (!m_bench.until([&] { return !m_bench.ofType(type).empty(); },
                           QString::fromLatin1(type)))
            return false;
        m_seen.append(QString::fromLatin1(type) + QStringLiteral(".qml"));
        if (const QStringList hard = hardToHit(m_bench); !hard.isEmpty()) {
            QTest::qFail(
                qPrintable(QString::fromLatin1(type + ": ") + hard.join(QStringLiteral("; "))),
                __FILE__, __LINE__);
            return false;
        }
        return m_looked(QString::fromLatin1(screen));
    }
    bool touch(const char* words, const char* screen)
    {
        return m_bench.tap(QString::fromLatin1(words)) && comesTo(screen);
    }
    bool goesToLists()
    {
        return touch("Who are you?", "Person") && m_bench.signIn(QStringLiteral("Runa Talbeck")) &&
               touch("My next", "MyNext") && touch("Back to the wall", "Wall") &&
               touch("Bays", "Bays") && isPlanned(m_bench) && touch("What if", "WhatIf") &&
               touch("Back to the plan as it is", "Bays") && touch("Back to the wall", "Wall") &&
               touch("Staff and bays", "Staff") && touch("Settings", "Settings") &&
               touch("Back", "Staff") && touch("Back to the wall", "Wall") &&
               touch("Bring a car in", "Arrival") && touch("Spoken walk-rounds", "Transcripts") &&
               touch("Back", "Arrival") && touch("Back to the wall", "Wall");
    }
    /// By the search, because a car may stand below the edge.
    bool openCar(const CarId& car)
    {
        const QString stock = m_bench.house().car(car).identity.stockNumber;
        return m_bench.tap(QStringLiteral("Search")) && m_bench.type(stock.toLower()) &&
               m_bench.until([&] { return m_bench.shell().wall()->count() == 1; }, stock) &&
               m_bench.tap(QStringLiteral("enter")) && // puts the keyboard away
               m_bench.until([&] { return m_bench.ofType("KeyCap").empty(); },
                             QStringLiteral("no keyboard")) &&
               m_bench.openCar(stock) && comesTo("Car");
    }
    bool goesToSpokenCar()
    {
        const CarState car = m_bench.house().car(m_spoken);
        const QByteArray review =
            QStringLiteral("Review what was said: %1").arg(car.openDrafts()).toLatin1();
        return openCar(m_spoken) && touch(review.constData(), "Review") && touch("Back", "Car") &&
               touch("Walk round it", "WalkRound") && touch("Back", "Car") &&
               m_bench.openWork(car.openOperations().front()->id) && comesTo("Operation") &&
               touch("Back", "Car") && touch("Back to the wall", "Wall") &&
               m_bench.tap(QStringLiteral("End search"));
    }
    bool goesToReadyCar(const std::function<bool()>& released)
    {
        return openCar(m_ready) && touch("Release", "Release") && touch("Back", "Car") &&
               released() && touch("Handover record", "Record");
    }
    bool hasSeenAll()
    {
        QStringList all = QDir(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/qml/screens"))
                              .entryList({QStringLiteral("*Screen.qml")});
        for (const char* start : {"SetupScreen.qml", "RecoveryScreen.qml"})
            if (!all.removeOne(QString::fromLatin1(start)))
                return m_bench.until([] { return false; }, QString::fromLatin1(start));
        for (const QString& file : all)
            if (!m_seen.contains(file))
                return m_bench.until([] { return false; }, file);
        return true;
    }

    KioskBench& m_bench;
    CarId m_spoken;
    CarId m_ready;
    std::function<bool(const QString& screen)> m_looked;
    QStringList m_seen;
};

} // namespace ramplight::test
