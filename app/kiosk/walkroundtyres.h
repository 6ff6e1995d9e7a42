// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/carview.h"

#include <QObject>
#include <QtQmlIntegration>

#include <array>

namespace ramplight {

struct WalkTyreRow
{
    QString placeId;
    QString title;         ///< "near side front tyre"
    QStringList readings;  ///< inner, centre, outer: "4.5", "4" while it is typed, or empty
    int point = -1;        ///< which of them the next digit goes to; -1: another tyre's turn
    bool askew = false;    ///< the drawing shows outer first (a left tyre's outside is on the left)
    QString lowWords;      ///< what a low reading opens, at once; empty
    QString codeWords;     ///< the date code with the tyre's age, or what was typed of it; empty
    bool recorded = false; ///< in the ledger as it is shown

    [[nodiscard]] QString key() const { return placeId; }
    friend bool operator==(const WalkTyreRow&, const WalkTyreRow&) = default;
};

class WalkTyres : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the walk-round")

public:
    explicit WalkTyres(QObject* parent = nullptr);
    void setRows(std::vector<WalkTyreRow> rows);
    [[nodiscard]] const std::vector<WalkTyreRow>& rows() const;
};

/// Twelve tread readings on one pad: two digits each (4 5 is 4.5 mm), four tyres in the order of a
/// walk round the car, each across from inner to outer, going on by themselves. The date code of
/// the tyre whose turn it is may be typed before or between. What is whole is handed on with
/// `complete`. GUI thread.
class TyrePad : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the walk-round")
    Q_PROPERTY(ramplight::WalkTyres* tyres READ tyres CONSTANT FINAL)
    /// The tyre whose turn it is, or empty when all readings are there.
    Q_PROPERTY(QString placeId READ placeId NOTIFY changed FINAL)
    Q_PROPERTY(QString title READ title NOTIFY changed FINAL)
    /// What stands in the window of the pad: "inner 4.– mm", "made 12––"; empty.
    Q_PROPERTY(QString window READ window NOTIFY changed FINAL)
    /// The digits are the date code's, until it is whole or typeCode(false).
    Q_PROPERTY(bool coding READ coding NOTIFY changed FINAL)
    /// "1219: 12 years" of the tyre whose turn it is; empty.
    Q_PROPERTY(QString codeWords READ codeWords NOTIFY changed FINAL)
    /// Why the date code that stands there can be none; empty.
    Q_PROPERTY(QString fault READ fault NOTIFY changed FINAL)
    Q_PROPERTY(int taken READ taken NOTIFY changed FINAL) ///< readings that are there, of 12
    /// The lowest tread of the house, in words: "at least 3.0 mm".
    Q_PROPERTY(QString limitWords READ limitWords NOTIFY changed FINAL)

public:
    TyrePad(CarView& car, SiteBook& book, Ticker& ticker, const Catalogue& catalogue,
            QObject* parent = nullptr);

    [[nodiscard]] WalkTyres* tyres() { return &m_tyres; }
    [[nodiscard]] QString placeId() const;
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString window() const;
    [[nodiscard]] bool coding() const { return m_coding; }
    [[nodiscard]] QString codeWords() const;
    [[nodiscard]] QString fault() const { return m_fault; }
    [[nodiscard]] int taken() const;
    [[nodiscard]] QString limitWords() const;

    /// 0 to 9.
    Q_INVOKABLE void strike(int digit);
    /// The next four digits are the date code of the tyre whose turn it is, or no longer.
    Q_INVOKABLE void typeCode(bool on);
    /// Takes the last digit or reading back.
    Q_INVOKABLE void goBack();
    /// The tyre's turn: its first reading makes the earlier ones void.
    Q_INVOKABLE void goTo(const QString& placeId);

    /// What is known of the car's tyres; forgets what was half typed on another car.
    void begin();
    void rebuild();

signals:
    void changed();
    /// The three readings of a tyre, or its date code (four digits).
    void complete(const ramplight::PlaceId& place, const std::optional<ramplight::Tread>& tread,
                  const QString& dateCode);

private:
    static constexpr int points = 3;
    struct Tyre
    {
        PlaceId place;
        std::array<std::optional<int>, points> tenths;
        QString code; ///< typed and not in the ledger
    };

    [[nodiscard]] Tyre& tyre() { return m_measured.at(static_cast<std::size_t>(m_at / points)); }
    void goOn();
    void strikeCode(int digit);
    [[nodiscard]] QDate today() const;
    [[nodiscard]] QString typing() const;
    [[nodiscard]] QString codeWordsOf(const Tyre& tyre) const;

    CarView& m_car;
    SiteBook& m_book;
    Ticker& m_ticker;
    const Catalogue& m_catalogue;
    WalkTyres m_tyres;
    std::array<Tyre, 4> m_measured;
    int m_at = 0;               ///< reading whose turn it is; 12: all are there
    std::optional<int> m_whole; ///< the digit before the point, while the second is missing
    bool m_coding = false;
    QString m_fault;
};

} // namespace ramplight
