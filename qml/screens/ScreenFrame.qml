// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The frame of every screen but the wall: what it is about above, who is signed in at the right
// end, the content between, actions along the lower edge, within reach.
//   shell, navigator
//   title, or lead ("R-208"), rest and second: the head
//   content (default): laid out inside the space between head and foot
//   ways: the actions at the left end after "Back" (leaving, reporting);
//   actions: those at the right end (going on). When both do not fit in one row they stand in two.
//   backText, backShown;  tall: portrait;  signal backWanted() answers the way back itself when
//   ownBack is true
//   sheets: DialogSheets; they lie over all of the screen
FocusScope {
    id: root

    required property Shell shell
    required property Navigator navigator
    property string title: ""
    property string lead: ""
    property string rest: ""
    property string second: ""
    property string backText: root.navigator.depth > 1 ? qsTr("Back") : qsTr("Back to the wall")
    property bool backShown: true
    property bool ownBack: false
    default property alias content: body.data
    property alias ways: left.data
    property alias actions: right.data
    property alias sheets: over.data

    readonly property bool tall: height > width
    readonly property real bodyWidth: body.width
    readonly property real bodyHeight: body.height

    signal backWanted

    anchors.fill: parent
    focus: true
    Keys.onEscapePressed: root.goBack()

    // "one · other", or the one that there is.
    function dotted(one: string, other: string): string {
        return one.length > 0 && other.length > 0 ? one + " · " + other : one + other
    }

    function goBack(): void {
        if (root.ownBack)
            root.backWanted()
        else
            root.navigator.back()
    }

    Rectangle {
        anchors.fill: parent
        color: Theme.ground

        // Nothing below this screen is touched through it.
        MouseArea {
            anchors.fill: parent
        }
    }

    PageHeader {
        id: head

        anchors { left: parent.left; right: parent.right; top: parent.top; leftMargin: Theme.margin; rightMargin: Theme.margin }
        title: root.title
        lead: root.lead
        rest: root.rest
        second: root.second
        trailing: PersonChip {
            shell: root.shell
            navigator: root.navigator
        }
    }

    FocusScope {
        id: body

        anchors {
            left: parent.left
            right: parent.right
            top: head.bottom
            bottom: foot.top
            leftMargin: Theme.margin
            rightMargin: Theme.margin
            bottomMargin: Theme.module
        }
        focus: true
    }

    Item {
        id: foot

        readonly property bool stacked: left.wanted + right.implicitWidth + Theme.module > width

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; margins: Theme.margin; bottomMargin: Theme.module }
        height: stacked ? left.height + right.height + Theme.gap : Math.max(left.height, right.height)

        Flow {
            id: left

            // What the row takes when nothing is wrapped.
            readonly property real wanted: foot.widthOf(left)

            anchors { left: parent.left; bottom: parent.bottom }
            width: foot.stacked ? foot.width : Math.min(wanted, foot.width)
            spacing: Theme.gap
            // One with a reason below its words is the taller one; all of a row end on one line.
            onPositioningComplete: {
                const shown = []
                for (let at = 0; at < children.length; ++at)
                    if (children[at].visible && children[at].width > 0)
                        shown.push(children[at])
                for (let first = 0, next = 0; first < shown.length; first = next) {
                    const top = shown[first].y
                    let end = top
                    for (next = first; next < shown.length && shown[next].y === top; ++next)
                        end = Math.max(end, top + shown[next].height)
                    for (let at = first; at < next; ++at)
                        shown[at].y = end - shown[at].height
                }
            }

            ActionButton {
                visible: root.backShown
                symbol: Icon.Back
                text: root.backText
                onTapped: root.goBack()
            }
        }

        // One row whose buttons stand on one line, whatever their heights.
        Grid {
            id: right

            anchors { right: parent.right }
            y: foot.stacked ? 0 : foot.height - height
            rows: 1
            spacing: Theme.gap
            verticalItemAlignment: Grid.AlignBottom
        }

        function widthOf(row: Item): real {
            let sum = 0
            for (let at = 0; at < row.children.length; ++at) {
                const child = row.children[at]
                if (child.visible && child.width > 0)
                    sum += child.width + (sum > 0 ? Theme.gap : 0)
            }
            return sum
        }
    }

    Item {
        id: over

        anchors.fill: parent
    }
}
