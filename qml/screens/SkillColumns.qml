// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Everybody under the heading of their first skill, in columns that are read downwards: each skill
// stays together, side by side with the others, as long as they have the room; many people fill one
// column after the other.
//   people, room: the height that is in sight, chosenId;  count (read only)
//   signal chosen(personId)
Item {
    id: root

    required property PeopleModel people
    property real room: 0
    property int chosenId: 0
    readonly property int count: everybody.count

    readonly property int across: Math.max(1, Math.floor((width + Theme.gap) / Theme.mm(86)))
    readonly property real column: Math.floor((width - (across - 1) * Theme.gap) / across)
    readonly property real headHeight: Math.round(Theme.readingSize * 1.5)
    readonly property real step: Theme.mm(24) + Theme.gap
    readonly property var plan: laidOut(everybody.made)

    signal chosen(personId: int)

    height: root.plan.height

    // Lengths of the runs of people with one heading.
    function sections(): var {
        const found = []
        for (let at = 0; at < everybody.count; ++at) {
            const tile = everybody.itemAt(at) as PersonTile
            // Asked of its index: when people change places the plan is made anew.
            if (tile === null || tile.index < 0)
                continue
            const last = found.length > 0 ? found[found.length - 1] : null
            if (last !== null && last.words === tile.skillSection)
                ++last.people
            else
                found.push({ words: tile.skillSection, people: 1 })
        }
        return found
    }

    // Into columns of at most that height; a section that is cut says its heading again.
    function filled(found: var, most: real, cut: bool): var {
        const spots = []
        const heads = []
        let at = 0
        let y = 0
        let tallest = 0
        for (const section of found) {
            const whole = root.headHeight + section.people * root.step
            if (y > 0 && y + (cut ? root.headHeight + root.step : whole) > most + 1) {
                ++at
                y = 0
            }
            for (let person = 0; person < section.people; ++person) {
                if (person > 0 && cut && y + root.step > most + 1) {
                    ++at
                    y = 0
                }
                if (person === 0 || y === 0) {
                    heads.push({ words: section.words, column: at, y: y })
                    y += root.headHeight
                }
                spots.push({ column: at, y: y })
                y += root.step
                tallest = Math.max(tallest, y)
            }
            y += Theme.half
        }
        return { spots: spots, heads: heads, columns: at + 1, height: tallest }
    }

    function laidOut(made: int): var {
        const found = root.sections()
        const least = root.headHeight + root.step
        // Whole ones as low as they go, then cut ones; at the last they are scrolled.
        for (const cut of [false, true])
            for (let most = least; most <= root.room; most += root.step / 2) {
                const plan = root.filled(found, most, cut)
                if (plan.columns <= root.across && plan.height <= root.room + Theme.gap)
                    return plan
            }
        for (let most = Math.max(least, root.room); ; most += root.step) {
            const plan = root.filled(found, most, true)
            if (plan.columns <= root.across)
                return plan
        }
    }

    Repeater {
        model: root.plan.heads

        delegate: Label {
            required property var modelData

            x: modelData.column * (root.column + Theme.gap)
            y: modelData.y
            width: root.column
            text: modelData.words
            paper: false
            muted: true
            elide: Text.ElideRight
        }
    }

    Repeater {
        id: everybody

        // Counts what was made or changed, so that the plan is made anew.
        property int made: 0

        model: root.people
        onItemAdded: ++everybody.made
        onItemRemoved: ++everybody.made

        delegate: PersonTile {
            readonly property var spot: index < root.plan.spots.length ? root.plan.spots[index] : { column: 0, y: 0 }

            x: spot.column * (root.column + Theme.gap)
            y: spot.y
            width: root.column
            chosen: root.chosenId === personId
            onTapped: root.chosen(personId)
        }
    }
}
